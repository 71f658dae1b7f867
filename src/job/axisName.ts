import type { Vec3 } from '../solid/vector.ts';

/** A letter where an axis is one, else the unit vector. */
export type AxisName = 'x' | 'y' | 'z' | Vec3;

/** Cosine of half a thousandth of a degree: as near to a coordinate axis as a file of 32-bit numbers can say. */
const SAME = 1 - 4e-11;

/** The name of an axis, a unit vector.
 *  @example axisName([0, 0, 1]) // => 'z' */
export function axisName(axis: Readonly<Vec3>): AxisName {
  const k = axis.findIndex((x) => Math.abs(x) >= SAME);
  return k >= 0 ? (['x', 'y', 'z'] as const)[k]! : [...axis];
}
