import { matingFactorOfSlope } from './snapJoint.ts';

/** A push or pull along the joint. */
export interface JointForce {
  /** N; null when it locks. */
  readonly force: number | null;
  /** No push, however large, moves it. */
  readonly locks: boolean;
}

/** Force along a joint from a spring force `across` N, 0 or above, on a flank at `angle` radians, 0 to pi/2, to the direction of joining, with
 *  friction 0 or above: across (mu + tan a) / (1 - mu tan a), or locked; never negative. A spring that does not press is passed freely, whatever the flank.
 *  @example jointForce(10, 0.6, Math.PI / 6).force // => 18.01 */
export function jointForce(across: number, friction: number, angle: number): JointForce {
  if (across === 0) return { force: 0, locks: false };
  const mating = matingFactorOfSlope(friction, Math.tan(Math.min(angle, Math.PI / 2)));
  return mating.locks ? { force: null, locks: true } : { force: across * mating.factor, locks: false };
}
