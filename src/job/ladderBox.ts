import type { Manifold, Scope } from '../solid/kernel.ts';
import type { Vec3 } from '../solid/vector.ts';

/** Block with its edges along the bed's axes, mm. */
export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** The box as a solid of the scope. */
export function boxSolid(scope: Scope, { min, max }: Box): Manifold {
  const size: Vec3 = [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
  return scope.keep(scope.keep(scope.kernel.Manifold.cube(size)).translate(min));
}

/** Smallest box around a solid. */
export function boxAround(solid: Manifold): Box {
  const { min, max } = solid.boundingBox();
  return { min: [...min] as Vec3, max: [...max] as Vec3 };
}

export const grownBox = ({ min, max }: Box, by: number): Box => ({
  min: [min[0] - by, min[1] - by, min[2] - by],
  max: [max[0] + by, max[1] + by, max[2] + by],
});

export const movedBox = ({ min, max }: Box, [x, y, z]: Readonly<Vec3>): Box => ({
  min: [min[0] + x, min[1] + y, min[2] + z],
  max: [max[0] + x, max[1] + y, max[2] + z],
});

/** Smallest box around points. */
export const bounds = (points: readonly Vec3[]): Box => ({
  min: leastOf(points, Math.min),
  max: leastOf(points, Math.max),
});

/** Smallest box around boxes. */
export const unionOfBoxes = (boxes: readonly Box[]): Box =>
  bounds(boxes.flatMap(({ min, max }) => [min, max]));

const leastOf = (points: readonly Vec3[], choose: (...values: number[]) => number): Vec3 => [
  choose(...points.map(([x]) => x)),
  choose(...points.map(([, y]) => y)),
  choose(...points.map(([, , z]) => z)),
];
