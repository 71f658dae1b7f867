import { power } from '../arithmetic/power.ts';
import { demand, demandAbove0, plain } from './demand.ts';

/** An arm of rectangular section that stands out of a wall. Lengths in mm. */
export interface ArmShape {
  /** From the wall to where the tip is pushed. */
  readonly length: number;
  /** Thickness at the root, in the direction of bending. */
  readonly thickness: number;
  /** Thickness at the tip, a quarter to all of the root's, straight in between; absent: the same. */
  readonly tipThickness?: number;
  readonly width: number;
  /** Radius where the arm meets the wall, 0 to the thickness; absent: 0. */
  readonly fillet?: number;
  /** `wall` gives way as a deep body of the same plastic does; `rigid` does not. Absent: `wall`. */
  readonly root?: 'wall' | 'rigid';
  /** The wall is the middle of a flange so thick that is held `reach` mm to either side of the arm; absent: a deep body. Counts for
   *  a `wall` only. */
  readonly flange?: { readonly thickness: number; readonly reach: number };
}

export interface ArmFlexibility {
  /** Tip deflection for 1 N, mm, in all, and its parts by bending, by shear and by the wall with its flange. */
  readonly total: number;
  readonly bending: number;
  readonly shear: number;
  readonly wall: number;
  /** Nominal bending strain at the most strained section for 1 N; where that is from the wall, 0 at the root to below 1 at the tip. */
  readonly strain: number;
  readonly strainAt: number;
  /** Length that bends: to within the fillet, mm. */
  readonly bendingLength: number;
}

/** So much of the fillet is as good as wall: measured against plane finite elements over l/h 2 to 15, r/h 0.1 to 1; no source. */
const FILLET_SHARE = 0.65;

/** How an arm gives way: bending with its taper, shear, and a wall that turns with the root.
 *
 *  Bending by the integral of x^2 / I(x) (Bayer MaterialScience, Snap-Fit Joints for Plastics, table 1: K = 2/3 uniform, 1.09 to half the thickness), shear with
 *  6/5 F / (G A) (Timoshenko, Strength of Materials), wall by W. J. O'Donnell, "The additional deflection of a cantilever due to the
 *  elasticity of the support", J. Appl. Mech. 27 (1960) 461, plane stress, from memory: slope 16.67 M / (pi E b h^2) + (1 - nu) V / (E b h)
 *  and the shift that goes with it by reciprocity. A flange bends too: M reach / (8 E I), a beam clamped at both ends and turned in the middle, as wide as the arm; a wider one gives less.
 *  Below half the root's thickness a taper has its worst section nearer to the tip. For l/h of 1.5 and above. `modulus` MPa, `poisson` 0 to 0.5.
 *  Throws `RangeError` outside the stated ranges.
 *  @example armFlexibility({ length: 12, thickness: 1.2, width: 5, root: 'rigid' }, 2000, 0.35).bending // => 0.4 */
export function armFlexibility(arm: ArmShape, modulus: number, poisson: number): ArmFlexibility {
  const { length, thickness: h, width: b } = arm;
  demandAbove0('spring arm', { length, thickness: h, width: b, modulus });
  const tip = arm.tipThickness ?? h;
  const fillet = arm.fillet ?? 0;
  demand(
    'spring arm',
    'tipThickness',
    tip,
    tip >= h / 4 && tip <= h,
    `${plain(h / 4)} to ${h} mm, the root's`,
  );
  demand('spring arm', 'fillet', fillet, fillet >= 0 && fillet <= h, `0 to ${h} mm, the thickness`);
  demand('spring arm', 'poisson', poisson, poisson >= 0 && poisson <= 0.5, '0 to 0.5');
  const l = length - FILLET_SHARE * fillet;
  demand(
    'spring arm',
    'length',
    length,
    l >= 1.5 * h,
    `${plain(1.5 * h + FILLET_SHARE * fillet)} mm or above, for its thickness`,
  );
  const ratio = tip / h;
  const thin = (x: number) => ratio + (1 - ratio) * x;
  const bending =
    (12 * power(l, 3) * simpson((x) => (x * x) / power(thin(x), 3))) / (modulus * b * power(h, 3));
  const shear = (1.2 * 2 * (1 + poisson) * l * simpson((x) => 1 / thin(x))) / (modulus * b * h);
  const wall =
    arm.root === 'rigid'
      ? 0
      : ((16.67 / Math.PI) * (l / h) ** 2 + 2 * (1 - poisson) * (l / h)) / (modulus * b) +
        flangeGive(arm, l, modulus);
  // x / thin(x)^2, x from the tip, peaks at ratio / (1 - ratio) if that lies on the arm.
  const worst = ratio < 0.5 ? ratio / (1 - ratio) : 1;
  const strain = ((6 * l) / (modulus * b * h * h)) * (worst / thin(worst) ** 2);
  return {
    total: bending + shear + wall,
    bending,
    shear,
    wall,
    strain,
    strainAt: 1 - worst,
    bendingLength: l,
  };
}

function flangeGive({ flange, width }: ArmShape, length: number, modulus: number): number {
  if (flange === undefined) return 0;
  const { thickness, reach } = flange;
  demandAbove0('flange', { thickness });
  demand('flange', 'reach', reach, reach >= 0 && reach < Infinity, '0 mm or above');
  return (1.5 * reach * length ** 2) / (modulus * width * power(thickness, 3));
}

/** Integral over 0 to 1 by Simpson's rule; to 1e-8 for tapers to a quarter. */
function simpson(f: (x: number) => number): number {
  const n = 200;
  let sum = 0;
  for (let k = 0; k <= n; k++) sum += (k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2) * f(k / n);
  return sum / (3 * n);
}
