import { join } from 'node:path';
import { couponFiles, couponNames, drawnCoupon } from '../../job/coupon/couponFiles.ts';
import { type CouponObject, couponObject } from '../../job/coupon/couponObject.ts';
import { couponOf } from '../../job/coupon/couponOf.ts';
import { sha256Hex } from '../../job/hash.ts';
import { loadKernel } from '../../solid/kernel.ts';
import { baseName } from '../fileNames.ts';
import { mustSpare } from '../mustSpare.ts';
import { openPrinter } from '../openPrinter.ts';
import { blaming } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeTogether } from '../writeTogether.ts';
import { couponText } from './couponText.ts';

/** Makes the coupon of the printer whose profile lies at `path`, writes STL, picture and form into `out`, all or none, and
 *  says what it is. Throws `RefusedFile` with every problem found; nothing is written then. */
export async function couponAction(path: string, out: string, json: boolean): Promise<void> {
  const printer = await openPrinter(path);
  // Refused before anything is loaded that takes time.
  blaming(path, () => couponOf(printer));
  const base = baseName(path, 'printer');
  await mustSpare([path], out, Object.values(couponNames(base)));

  const drawn = drawnCoupon(await loadKernel(), printer);
  const { mesh, features, print } = drawn;
  const next = `fettle calibrate ${path}`;
  const files = couponFiles(printer, drawn, base, next);
  await writeTogether(out, files);

  const written = files.map(({ kind, name, bytes }): CouponObject['files'][number] => ({
    path: join(out, name),
    kind,
    sha256: sha256Hex(bytes),
    ...(kind === 'stl' ? { triangles: mesh.triangles.length / 3 } : {}),
  }));
  if (json) {
    const object = couponObject({ printer: printer.name, files: written, features, print });
    process.stdout.write(`${JSON.stringify(object, null, 2)}\n`);
    return;
  }
  const lines = couponText(
    { printer, features, print, next, files: written.map((file) => file.path) },
    looksOf(process.stdout),
  );
  for (const line of lines) console.log(line);
}
