import type { Axis } from '../solid/primitives.ts';
import type { Vec3 } from '../solid/vector.ts';

/** Where the two jaws touch, mm. */
export type Callout = readonly [Vec3, Vec3];

/** Jaws `width` mm apart along an axis, on either side of `middle`.
 *  @example astride('y', 4, [0, 1, 2]) // => [[0, -1, 2], [0, 3, 2]] */
export function astride(axis: Axis, width: number, middle: Readonly<Vec3>): Callout {
  const at = (side: 1 | -1): Vec3 => {
    const [x, y, z] = middle;
    const by = (side * width) / 2;
    return [axis === 'x' ? x + by : x, axis === 'y' ? y + by : y, axis === 'z' ? z + by : z];
  };
  return [at(-1), at(1)];
}

/** Jaws, or rule or rod, from one point to another. */
export const between = (from: Vec3, to: Vec3): Callout => [from, to];
