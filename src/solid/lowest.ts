import { geometries } from './jscad.ts';
import { inverse, turn } from './placement.ts';
import type { Shape } from './shape.ts';
import { dot, type Vec3 } from './vector.ts';

/** Least coordinate of a shape along `up`, a unit vector, mm: where its lowest point lies when `up` points upwards.
 *  Read off the description, without a boolean. What a cut takes away at the very bottom is not seen, so that it may
 *  lie below the solid's lowest point, never above.
 *  @example lowest(block([0, 0, 2], [1, 1, 3]), [0, 0, 1]) // => 2 */
export function lowest(shape: Shape, up: Readonly<Vec3>): number {
  switch (shape.kind) {
    case 'leaf':
      return geometries.geom3
        .toPolygons(shape.geometry)
        .reduce(
          (least, { vertices }) => vertices.reduce((low, p) => Math.min(low, dot(p as Vec3, up)), least),
          Number.POSITIVE_INFINITY,
        );
    case 'mesh': {
      const { positions } = shape.mesh;
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k < positions.length; k += 3)
        least = Math.min(
          least,
          positions[k]! * up[0] + positions[k + 1]! * up[1] + positions[k + 2]! * up[2],
        );
      return least;
    }
    case 'placed':
      return lowest(shape.of, turn(inverse(shape.placement), up)) + dot(shape.placement.translation, up);
    case 'union':
      return Math.min(...shape.of.map((part) => lowest(part, up)));
    case 'intersection':
      return Math.max(...shape.of.map((part) => lowest(part, up)));
    case 'difference':
      return lowest(shape.of[0]!, up);
  }
}
