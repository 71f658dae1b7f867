import type { LevelMap } from '../../../src/donor/respace/levelMap.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';

/** Moves points, three numbers each, along an axis as a map of levels says; in place. */
export function shiftedInto(
  points: Float32Array,
  [x, y, z]: Readonly<Vec3>,
  map: LevelMap | undefined,
): void {
  if (!map) return;
  for (let i = 0; i < points.length; i += 3) {
    const by = map.shift(points[i]! * x + points[i + 1]! * y + points[i + 2]! * z);
    points[i]! += by * x;
    points[i + 1]! += by * y;
    points[i + 2]! += by * z;
  }
}
