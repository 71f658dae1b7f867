import { couponForm } from '../../output/couponForm/index.ts';
import { viewFrom } from '../../output/drawing/index.ts';
import { encodePng, picture } from '../../output/picture/index.ts';
import { stl } from '../../output/stl.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { type PrintEstimate, printEstimate } from '../../printer/coupon/printEstimate.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import type { Mesh } from '../../solid/mesh.ts';
import { meshOf } from '../../solid/meshOf.ts';
import { realise } from '../../solid/realise.ts';
import { canonical, sha256Hex } from '../hash.ts';
import { couponOf } from './couponOf.ts';

const PICTURE = { width: 1200, height: 960 } as const;
/** Over the corner with the tower, so that bores, ribs and notch all show. */
const FROM = viewFrom([0.5, -1, 1.1]);

/** A coupon as a solid, and what there is to read on it. */
export interface DrawnCoupon {
  readonly mesh: Mesh;
  readonly features: readonly CouponFeature[];
  readonly print: PrintEstimate;
}

/** One file of a coupon, in memory. */
export interface CouponFile {
  readonly kind: 'stl' | 'png' | 'html';
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Draws the coupon of a printer. Throws `Refused` for a printer too small or too coarse for it. */
export function drawnCoupon(kernel: ManifoldToplevel, printer: PrinterProfile): DrawnCoupon {
  const { shape, features } = couponOf(printer);
  const { mesh, volume, height } = withScope(kernel, (scope) => {
    const solid = realise(scope, shape);
    return { mesh: meshOf(solid), volume: solid.volume(), height: solid.boundingBox().max[2] };
  });
  return { mesh, features, print: printEstimate(volume, height, printer) };
}

/** What the files of a printer's coupon are called; `base` is what those of the printer begin with.
 *  @example couponNames('my').stl // => 'my-coupon.stl' */
export function couponNames(base: string): Readonly<Record<CouponFile['kind'], string>> {
  const name = `${base.replace(/\.printer$/i, '')}-coupon`;
  return { stl: `${name}.stl`, png: `${name}.png`, html: `${name}.html` };
}

/** The files of a coupon: the STL, its picture, and a form to write the readings into. `next` is what the form says comes
 *  after it. The same printer gives the same bytes. */
export function couponFiles(
  printer: PrinterProfile,
  { mesh, features, print }: DrawnCoupon,
  base: string,
  next: string,
): readonly CouponFile[] {
  const { layer, firstLayer, lineWidth } = printer;
  // Nothing else of the profile goes into the shape, so nothing else may change a byte of the file.
  const hash = sha256Hex(canonical({ coupon: 1, layer, firstLayer, lineWidth }));
  const names = couponNames(base);
  const { width, height } = PICTURE;
  const pixels = picture([{ mesh, style: 'part' }], { ...PICTURE, view: FROM });
  return [
    { kind: 'stl', name: names.stl, bytes: stl(mesh, { part: 'coupon', unit: 'mm', hash }) },
    { kind: 'png', name: names.png, bytes: Uint8Array.from(encodePng(pixels, width, height)) },
    {
      kind: 'html',
      name: names.html,
      bytes: new TextEncoder().encode(couponForm({ printer, features, mesh, print, next })),
    },
  ];
}
