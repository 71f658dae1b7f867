import { power } from '../arithmetic/power.ts';
import { demand, demandAbove0 } from './demand.ts';
import type { PlateBending, PlateMaterial } from './plate.ts';
import { bendingOf } from './plate.ts';

/** A strip cut out of a plate between two supports. */
export interface Strip extends PlateMaterial {
  /** Distance of the supports, mm: for a plate held at points the longest line through the push that ends at two of them. */
  readonly span: number;
  /** mm. */
  readonly width: number;
  readonly ends: 'simple' | 'clamped';
}

/** Upper bound of how far a plate gives way that is held only at two edges or at a few points.
 *
 *  A strip as wide as the push, cut out between two supports, is the plate with everything else taken away. Taking away material never
 *  stiffens, so the plate moves less; that its stress is less too is a matter of experience, no theorem. The push of `force` N, 0 or above, in
 *  the middle, is spread over `spread` mm of the span: beam relations by integration, P l^3 / (48 E I) and P l^3 / (192 E I) for a push on a line
 *  (any strength of materials). A wide bound: for a finger on a square of 60 mm held all round, which `rectangularPlate` has exactly, it is
 *  twelve times the deflection. Throws `RangeError` outside the ranges.
 *  @example stripBending({ span: 60, width: 10, thickness: 2, modulus: 2000, poisson: 0.35, ends: 'simple' },
 *    { force: 10, spread: 0 }).deflection // => 3.375 */
export function stripBending(
  strip: Strip,
  push: { readonly force: number; readonly spread: number },
): PlateBending {
  const { span: l, width, thickness, modulus, ends } = strip;
  const { force, spread } = push;
  demandAbove0('strip', { span: l, width, thickness, modulus });
  demand('strip', 'force', force, force >= 0 && force < Infinity, '0 N or above');
  demand('strip', 'spread', spread, spread >= 0 && spread <= l, `0 to ${l} mm, the span`);
  const rigidity = (modulus * width * power(thickness, 3)) / 12;
  const s = spread / l;
  // A load q over the middle s l: simple ends give P l^3 (8 - 4 s^2 + s^3) / 384 and P l (2 - s) / 8; end moments
  // M = P l (3 - s^2) / 24 turn the ends back and take M l^2 / 8 off.
  const end = ends === 'clamped' ? (force * l * (3 - s * s)) / 24 : 0;
  const deflection =
    ((force * power(l, 3) * (8 - 4 * s * s + power(s, 3))) / 384 - (end * l * l) / 8) / rigidity;
  const middle = (force * l * (2 - s)) / 8 - end;
  return bendingOf(strip, l, deflection, middle / width, end / width);
}
