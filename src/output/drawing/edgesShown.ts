import type { Mesh } from '../../solid/mesh.ts';
import { cross, dot, subtract, unit, type Vec3 } from '../../solid/vector.ts';
import { isSharp } from './drawnEdges.ts';
import { type Edge, type FacetedSolid, facetedSolid } from './facetedSolid.ts';
import { heightOver, TriangleGrid } from './triangleGrid.ts';
import { type View, type ViewName, viewOf } from './view.ts';

/** The sharp edges of a mesh, and which of them a view shows. */
export interface SharpEdges {
  /** mm. */
  readonly lengths: readonly number[];
  /** Of each edge, whether the view shows it in its shape. */
  readonly shownIn: (direction: View | ViewName) => readonly boolean[];
}

/** An edge shows where at least this share of its length is seen. */
const FORESHORTENED = 0.3;
/** A face shows the edge when it leans to the reader by this much at least, as the cosine of its angle. */
const LEANS = 0.2;
/** How far from the edge a face is looked at, mm, and what may lie over it there. */
const BESIDE = 0.03;
const TOUCHING = 2e-3;
/** Points of edges this near to each other fall together on the paper, mm. */
const SAME = 0.01;

/** Finds the edges where the surface turns sharply. A view shows one when a face beside it is seen there, or when it falls together with
 *  another of the same length that is shown, as the far rim of a plate does with the near one. An edge whose
 *  faces are both hidden or on edge is only guessed at, even where a line of the drawing happens to cover it. */
export function sharpEdges(mesh: Mesh): SharpEdges {
  const base = facetedSolid(mesh, viewOf('front'));
  const edges = base.edges.filter(isSharp(base));
  return {
    lengths: edges.map(({ from, to }) => Math.hypot(...subtract(base.points[to]!, base.points[from]!))),
    shownIn: (direction) => shownIn(facetedSolid(mesh, viewOf(direction)), edges),
  };
}

function shownIn(solid: FacetedSolid, edges: readonly Edge[]): boolean[] {
  const grid = new TriangleGrid([solid]);
  const keys = edges.map((edge) => keyOf(solid, edge));
  const seen = new Set<string>();
  edges.forEach((edge, k) => {
    if (keys[k] !== '' && [edge.ahead, edge.back].some((face) => isFaceSeen(solid, edge, face, grid)))
      seen.add(keys[k]!);
  });
  return keys.map((key) => seen.has(key));
}

/** Where the edge lies on the paper; empty for one that shows too short. */
function keyOf({ points }: FacetedSolid, { from, to }: Edge): string {
  const [p, q] = [points[from]!, points[to]!];
  const flat = Math.hypot(q[0] - p[0], q[1] - p[1]);
  if (flat < FORESHORTENED * Math.hypot(flat, q[2] - p[2])) return '';
  const ends = [p, q].map(([x, y]) => `${Math.round(x / SAME)},${Math.round(y / SAME)}`);
  return ends.sort().join();
}

function isFaceSeen(
  solid: FacetedSolid,
  { from, to, ahead }: Edge,
  face: number,
  grid: TriangleGrid,
): boolean {
  if (face < 0) return false;
  const normal = solid.normals[face]!;
  if (normal[2] < LEANS) return false;
  const [p, q] = [solid.points[from]!, solid.points[to]!];
  // Inwards of the face: to the left of the edge as the face runs along it.
  const inward = cross(normal, unit(subtract(q, p))).map((c) => (face === ahead ? c : -c)) as Vec3;
  const [x, y, z] = [0, 1, 2].map((k) => (p[k]! + q[k]!) / 2 + BESIDE * inward[k]!) as Vec3;
  for (const screen of grid.at(x, y)) {
    if (screen.triangle === face || dot(screen.normal, normal) > 1 - 1e-9) continue;
    const height = heightOver(screen, x, y, 0);
    if (height !== null && height - z > TOUCHING) return false;
  }
  return true;
}
