import { join } from 'node:path';
import { canonical, sha256Hex } from '../../job/hash.ts';
import { couponForm } from '../../output/couponForm/index.ts';
import { viewFrom } from '../../output/drawing/index.ts';
import { encodePng, picture } from '../../output/picture/index.ts';
import { stl } from '../../output/stl.ts';
import { coupon } from '../../printer/coupon/coupon.ts';
import { CouponRefusal } from '../../printer/coupon/couponRefusal.ts';
import type { Coupon } from '../../printer/coupon/feature.ts';
import { printEstimate } from '../../printer/coupon/printEstimate.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { loadKernel, withScope } from '../../solid/kernel.ts';
import { meshOf } from '../../solid/mesh.ts';
import { realise } from '../../solid/realise.ts';
import { baseName } from '../fileNames.ts';
import { mustSpare } from '../mustSpare.ts';
import { openPrinter } from '../openPrinter.ts';
import { RefusedFile } from '../refusedFile.ts';
import { looksOf } from '../terminal.ts';
import { writeTogether } from '../writeTogether.ts';
import { type CouponObject, couponObject } from './couponObject.ts';
import { couponText } from './couponText.ts';

const PICTURE = { width: 1200, height: 960 } as const;
/** Over the corner with the tower, so that bores, ribs and notch all show. */
const FROM = viewFrom([0.5, -1, 1.1]);

/** Makes the coupon of the printer whose profile lies at `path`, writes STL, picture and form into `out`, all or none, and
 *  says what it is. Throws `RefusedFile` with every problem found; nothing is written then. */
export async function couponAction(path: string, out: string, json: boolean): Promise<void> {
  const printer = await openPrinter(path);
  const { shape, features } = drawn(path, printer);
  const base = `${baseName(path, 'printer').replace(/\.printer$/i, '')}-coupon`;
  const names = { stl: `${base}.stl`, picture: `${base}.png`, form: `${base}.html` };
  await mustSpare([path], out, Object.values(names));

  const { mesh, volume, height } = withScope(await loadKernel(), (scope) => {
    const solid = realise(scope, shape);
    return { mesh: meshOf(solid), volume: solid.volume(), height: solid.boundingBox().max[2] };
  });
  const print = printEstimate(volume, height, printer);
  const { layer, firstLayer, lineWidth } = printer;
  // Nothing else of the profile goes into the shape, so nothing else may change a byte of the file.
  const hash = sha256Hex(canonical({ coupon: 1, layer, firstLayer, lineWidth }));
  const next = `fettle calibrate ${path}`;
  const files = [
    { kind: 'stl', name: names.stl, bytes: stl(mesh, { part: 'coupon', unit: 'mm', hash }) },
    {
      kind: 'png',
      name: names.picture,
      bytes: encodePng(
        picture([{ mesh, style: 'part' }], { ...PICTURE, view: FROM }),
        PICTURE.width,
        PICTURE.height,
      ),
    },
    {
      kind: 'html',
      name: names.form,
      bytes: new TextEncoder().encode(couponForm({ printer, features, mesh, print, next })),
    },
  ] as const;
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

function drawn(path: string, printer: PrinterProfile): Coupon {
  try {
    return coupon(printer);
  } catch (error) {
    if (!(error instanceof CouponRefusal)) throw error;
    const { code, field, given, allowed } = error;
    throw new RefusedFile(path, [{ code, field, value: String(given), allowed }]);
  }
}
