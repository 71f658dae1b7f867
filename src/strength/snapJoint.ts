/** How a straight snap arm runs from its root to its tip. */
export type ArmTaper = 'uniform' | 'thickness-to-half' | 'width-to-quarter';

/** K in y = K strain l^2 / h: twice the integral of x^2 / I(x) over an arm of unit length and unit root section. The design
 *  guide prints 0.67, 1.09 and 0.86 (Bayer MaterialScience, Snap-Fit Joints for Plastics, table 1). */
export const armConstant: Readonly<Record<ArmTaper, number>> = {
  uniform: 2 / 3,
  'thickness-to-half': 16 * Math.LN2 - 10,
  'width-to-quarter': 4 / 9 + (16 / 27) * Math.LN2,
};

/** A straight arm. Lengths in mm, above 0. */
export interface SnapArm {
  readonly length: number;
  /** Thickness at the root, in the direction of bending. */
  readonly thickness: number;
  readonly taper?: ArmTaper;
  /** Factor for a root that gives way, 1 for a rigid one; design guides chart 1 to 2 by aspect ratio. */
  readonly rootFactor?: number;
}

/** Deflection of the tip at which the root reaches `strain` (0.02 is 2 %), mm: y = K Q strain l^2 / h.
 *
 *  Bayer MaterialScience, Snap-Fit Joints for Plastics, table 1; Q after the improved formula of the BASF design guide.
 *  Holds for slender arms, l / h above about 5; for short thick arms around a bore it is wrong threefold: use `openMouth`.
 *  @example armDeflection({ length: 15, thickness: 2.5 }, 0.0416667) // => 2.5 */
export function armDeflection(arm: SnapArm, strain: number): number {
  return (
    (armConstant[arm.taper ?? 'uniform'] * (arm.rootFactor ?? 1) * strain * arm.length ** 2) / arm.thickness
  );
}

/** Strain at the root for a deflection of the tip in mm; the inverse of `armDeflection`.
 *  @example armStrain({ length: 12, thickness: 1.2 }, 1) // => 0.0125 */
export function armStrain(arm: SnapArm, deflection: number): number {
  return deflection / armDeflection(arm, 1);
}

/** Force across the tip that gives the root `strain`, N: P = b h^2 / 6 E strain / l (same guide).
 *  `width` in mm; `modulus` in MPa, the secant modulus at that strain.
 *  @example armForce({ length: 12, thickness: 1.2 }, 5, 2000, 0.0125) // => 2.5 */
export function armForce(arm: SnapArm, width: number, modulus: number, strain: number): number {
  return (width * arm.thickness ** 2 * modulus * strain) / (6 * arm.length);
}

/** Push along the joint over force across it; `locks` when no push, however large, moves it. */
export type MatingFactor = { readonly locks: false; readonly factor: number } | { readonly locks: true };

/** (mu + tan a) / (1 - mu tan a) for a flank at angle `a` to the direction of joining, radians, 0 to pi/2, and
 *  friction `mu`, 0 or above (Bayer guide, p. 14). It is the tangent of a plus the angle of friction: at 90 degrees and
 *  beyond the flank locks.
 *  @example matingFactor(0.6, Math.PI / 6) // => { locks: false, factor: 1.80136... } */
export function matingFactor(friction: number, angle: number): MatingFactor {
  return matingFactorOfSlope(friction, Math.tan(Math.min(angle, Math.PI / 2)));
}

/** As `matingFactor`, by the tangent of the angle, 0 to Infinity. */
export function matingFactorOfSlope(friction: number, slope: number): MatingFactor {
  // The tangent of a right angle is 1.6e16 in floating point: past 1e15 it stands for Infinity, friction or none.
  if (!(slope < 1e15) || 1 - friction * slope <= 0) return { locks: true };
  return { locks: false, factor: (friction + slope) / (1 - friction * slope) };
}
