import type { Mesh } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import { isOutline, ON_EDGE } from './drawnEdges.ts';
import { facetedSolid } from './facetedSolid.ts';
import { listAt } from './listAt.ts';
import { type View, type ViewName, viewOf } from './view.ts';

/** What a solid covers on the paper, as closed contours to be filled by the non-zero rule, mm.
 *  The border of all faces that look at the reader, taken round counter-clockwise, winds around a point as often
 *  as such faces cover it: no polygon boolean is needed. */
export function region(mesh: Mesh, direction: View | ViewName): Vec2[][] {
  const solid = facetedSolid(mesh, viewOf(direction));
  const leaving = new Map<number, number[]>();
  for (const edge of solid.edges) {
    if (!isOutline(solid, edge)) continue;
    const ahead = solid.normals[edge.ahead]![2] > ON_EDGE;
    const [from, to] = ahead ? [edge.from, edge.to] : [edge.to, edge.from];
    listAt(leaving, from).push(to);
  }
  const contours: Vec2[][] = [];
  for (const [start, targets] of leaving) {
    while (targets.length > 0) {
      const contour: Vec2[] = [];
      for (let at: number | undefined = start; at !== undefined; ) {
        const next: number | undefined = leaving.get(at)?.pop();
        if (next === undefined) break;
        const [x, y] = solid.points[at]!;
        contour.push([x, y]);
        at = next;
      }
      contours.push(contour);
    }
  }
  return contours;
}
