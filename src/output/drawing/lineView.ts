import type { Mesh } from '../../solid/mesh.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { drawnEdges, isOutline, ON_EDGE } from './drawnEdges.ts';
import { type Edge, type FacetedSolid, facetedSolid, turnAt } from './facetedSolid.ts';
import { mergeLines } from './mergeLines.ts';
import { heightOver, TriangleGrid } from './triangleGrid.ts';
import { type LineView, type Segment, type View, type ViewName, viewOf } from './view.ts';

/** A surface this little in front of an edge does not hide it, mm: touching solids share edges. */
const TOUCHING = 2e-3;
/** A point this little outside of a triangle counts as under it, mm: rays pass between neighbours otherwise. */
const SLACK = 1e-6;

/** Line drawing of solids in a view: sharp edges and outlines of curved surfaces (ISO 128-3 views), each split
 *  into what is seen and what is hidden. Exact for faceted solids: edges are cut wherever they pass behind an
 *  outline or through a face, and each piece is judged at its middle against every triangle over it.
 *  `screens` are solids that hide as well but are not drawn themselves.
 *  Meshes must be closed and oriented; of an open one the border is drawn.
 *  @example lineView([cube], 'isometric') // => 9 visible, 3 hidden */
export function lineView(
  meshes: readonly Mesh[],
  direction: View | ViewName,
  screens: readonly Mesh[] = [],
): LineView {
  const view = viewOf(direction);
  const drawn = meshes.map((mesh) => facetedSolid(mesh, view));
  const solids = [...drawn, ...screens.map((mesh) => facetedSolid(mesh, view))];
  const grid = new TriangleGrid(solids);
  const outlines = outlineIndex(solids);
  const [visible, hidden]: [Segment[], Segment[]] = [[], []];
  drawn.forEach((solid, index) => {
    for (const edge of drawnEdges(solid)) {
      const [p, q] = [solid.points[edge.from]!, solid.points[edge.to]!];
      const at = (t: number): Vec3 => [
        p[0] + t * (q[0] - p[0]),
        p[1] + t * (q[1] - p[1]),
        p[2] + t * (q[2] - p[2]),
      ];
      const behindItself = turnedAway(solid, edge);
      const cuts = behindItself ? [0, 1] : [0, ...cutsOf(p, q, outlines, grid), 1];
      for (let k = 1; k < cuts.length; k++) {
        const [from, to] = [at(cuts[k - 1]!), at(cuts[k]!)];
        const middle = at((cuts[k - 1]! + cuts[k]!) / 2);
        const seen = !behindItself && isSeen(middle, index, edge, grid);
        (seen ? visible : hidden).push([
          [from[0], from[1]],
          [to[0], to[1]],
        ]);
      }
    }
  });
  return mergeLines(visible, hidden);
}

/** Whether the solid hides the edge right at the edge: a ridge is seen when either of its faces is, a groove only
 *  when neither turns away. */
function turnedAway(solid: FacetedSolid, edge: Edge): boolean {
  if (edge.back < 0) return false;
  const [n, m] = [solid.normals[edge.ahead]![2], solid.normals[edge.back]![2]];
  return turnAt(solid, edge).convex ? n <= ON_EDGE && m <= ON_EDGE : n < -ON_EDGE || m < -ON_EDGE;
}

function isSeen([x, y, z]: Vec3, solid: number, edge: Edge, grid: TriangleGrid): boolean {
  for (const screen of grid.at(x, y)) {
    if (screen.solid === solid && (screen.triangle === edge.ahead || screen.triangle === edge.back)) continue;
    const height = heightOver(screen, x, y, SLACK);
    // Where the screen is steep, a small shift on paper is a large one in height.
    if (height !== null && height - z > TOUCHING + (10 * SLACK) / Math.abs(screen.normal[2])) return false;
  }
  return true;
}

type Crossing = (p: Readonly<Vec3>, q: Readonly<Vec3>, take: (t: number) => void) => void;

/** Where along p-q (0..1) visibility may change, ascending. */
function cutsOf(p: Readonly<Vec3>, q: Readonly<Vec3>, outlines: Crossing, grid: TriangleGrid): number[] {
  const cuts: number[] = [];
  const take = (t: number): void => {
    if (t > 1e-9 && t < 1 - 1e-9) cuts.push(t);
  };
  outlines(p, q, take);
  const [x0, x1] = p[0] < q[0] ? [p[0], q[0]] : [q[0], p[0]];
  const [y0, y1] = p[1] < q[1] ? [p[1], q[1]] : [q[1], p[1]];
  for (const screen of grid.over(x0, y0, x1, y1)) {
    const n = screen.normal;
    const a = screen.corners[0];
    const offset = (r: Readonly<Vec3>): number =>
      n[0] * (r[0] - a[0]) + n[1] * (r[1] - a[1]) + n[2] * (r[2] - a[2]);
    const [d, e] = [offset(p), offset(q)];
    if (d * e >= 0) continue;
    const t = d / (d - e);
    if (heightOver(screen, p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), SLACK) !== null) take(t);
  }
  return cuts.sort((s, t) => s - t);
}

/** All outlines of the solids, ready to be crossed. Only they can begin or end to hide something. */
function outlineIndex(solids: readonly FacetedSolid[]): Crossing {
  const lines = solids.flatMap((solid) =>
    solid.edges
      .filter((edge) => isOutline(solid, edge))
      .map((edge) => {
        const [a, b] = [solid.points[edge.from]!, solid.points[edge.to]!];
        return { a, b, top: Math.max(a[2], b[2]) };
      }),
  );
  return (p, q, take) => {
    const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
    const low = Math.min(p[2], q[2]);
    for (const { a, b, top } of lines) {
      if (top < low) continue;
      const [ex, ey] = [b[0] - a[0], b[1] - a[1]];
      const across = dx * ey - dy * ex;
      if (Math.abs(across) < 1e-12) continue;
      const s = (dx * (p[1] - a[1]) - dy * (p[0] - a[0])) / across;
      if (s < -1e-6 || s > 1 + 1e-6) continue;
      take(((a[0] - p[0]) * ey - (a[1] - p[1]) * ex) / across);
    }
  };
}
