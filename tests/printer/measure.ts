import type { Manifold } from '../../src/solid/kernel.ts';
import type { Contour, Vec2 } from '../../src/solid/vector.ts';

/** Section of a solid at a height, as contours; measured from the mesh, not from what made it. */
export function sectionAt(solid: Manifold, z: number): Contour[] {
  const section = solid.slice(z);
  const contours = section.toPolygons() as Contour[];
  section.delete();
  return contours;
}

/** Coordinates at which a straight line crosses the walls of a section, in order. `along` is the axis the line runs
 *  along, `at` its coordinate on the other. */
export function crossings(contours: readonly Contour[], along: 'x' | 'y', at: number): number[] {
  const [u, v] = along === 'x' ? ([0, 1] as const) : ([1, 0] as const);
  const found: number[] = [];
  for (const contour of contours) {
    for (let k = 0; k < contour.length; k++) {
      const [p, q]: [Vec2, Vec2] = [contour[k]!, contour[(k + 1) % contour.length]!];
      if (p[v] > at !== q[v] > at) found.push(p[u] + ((at - p[v]) / (q[v] - p[v])) * (q[u] - p[u]));
    }
  }
  return found.sort((a, b) => a - b);
}

/** Width of the void around a point, and of the solid around it, along an axis: whichever the point lies in. */
export function widthAround(contours: readonly Contour[], along: 'x' | 'y', point: Vec2): number {
  const [u, v] = along === 'x' ? ([0, 1] as const) : ([1, 0] as const);
  const walls = crossings(contours, along, point[v]);
  const next = walls.findIndex((wall) => wall > point[u]);
  return walls[next]! - walls[next - 1]!;
}
