import { dot, subtract, unit, type Vec3 } from '../../solid/vector.ts';
import { type Edge, type FacetedSolid, turnAt } from './facetedSolid.ts';
import { listAt } from './listAt.ts';

const DEGREE = Math.PI / 180;

/** Turns up to this are facets of a curved surface. */
const SMOOTH = 25 * DEGREE;
/** Turns above this are edges. In between it depends: small round things have as few as 12 facets, 30 degrees
 *  apart, and lead-ins can be as flat as that. */
const SHARP = 40 * DEGREE;
/** Facets of one round surface differ in their turns by no more than this. */
const LEAST_ALIKE = 0.25;
/** Triangles turned by less than this lie in one face. */
const PLANE = 0.5 * DEGREE;
/** A face whose normal leans less than this to the reader is seen on edge. */
export const ON_EDGE = 1e-4;

/** What of a solid is drawn: edges where the surface turns sharply, and outlines of curved surfaces, where it
 *  turns away from the reader. Edges that point at the reader are left out: they are dots. */
export function drawnEdges(solid: FacetedSolid): Edge[] {
  const sharp = isSharp(solid);
  return solid.edges.filter((edge) => {
    const [p, q] = [solid.points[edge.from]!, solid.points[edge.to]!];
    if (Math.hypot(q[0] - p[0], q[1] - p[1]) < 1e-6) return false;
    return isOutline(solid, edge) || sharp(edge);
  });
}

/** Whether the surface turns sharply at an edge, rather than from facet to facet of something round. */
export function isSharp(solid: FacetedSolid): (edge: Edge) => boolean {
  const repeats = repeatsOf(solid);
  return (edge) => {
    const { angle } = turnAt(solid, edge);
    return angle > SHARP || (angle > SMOOTH && !repeats(edge));
  };
}

/** Whether the surface turns away from the reader at this edge. */
export function isOutline({ normals }: FacetedSolid, { ahead, back }: Edge): boolean {
  const faces = (triangle: number): boolean => triangle >= 0 && normals[triangle]![2] > ON_EDGE;
  return faces(ahead) !== faces(back);
}

/** Whether an edge is one of a row that turns the same way across the face on either side, not much less: so it is on a round surface with
 *  few or uneven facets, and not on a lead-in. */
function repeatsOf(solid: FacetedSolid): (edge: Edge) => boolean {
  const faceOf = planeFaces(solid);
  const around = new Map<number, { angle: number; convex: boolean; along: Vec3; edge: Edge }[]>();
  const described = (edge: Edge) => ({
    ...turnAt(solid, edge),
    along: unit(subtract(solid.points[edge.to]!, solid.points[edge.from]!)),
    edge,
  });
  for (const edge of solid.edges) {
    if (edge.back < 0 || faceOf[edge.ahead] === faceOf[edge.back]) continue;
    const entry = described(edge);
    for (const face of [faceOf[edge.ahead]!, faceOf[edge.back]!]) listAt(around, face).push(entry);
  }
  return (edge) => {
    if (edge.back < 0) return false;
    const own = described(edge);
    return [faceOf[edge.ahead]!, faceOf[edge.back]!].some((face) =>
      (around.get(face) ?? []).some(
        (other) =>
          other.edge !== edge &&
          other.convex === own.convex &&
          other.angle > LEAST_ALIKE * own.angle &&
          other.angle < SHARP &&
          Math.abs(dot(other.along, own.along)) > 0.8,
      ),
    );
  };
}

/** Number of the plane face each triangle belongs to: triangles joined across edges that do not turn. */
function planeFaces(solid: FacetedSolid): number[] {
  const parent = solid.triangles.map((_, t) => t);
  const root = (t: number): number => {
    let top = t;
    while (parent[top] !== top) top = parent[top]!;
    for (let k = t; parent[k] !== top; ) [k, parent[k]] = [parent[k]!, top];
    return top;
  };
  for (const edge of solid.edges) {
    if (edge.back >= 0 && turnAt(solid, edge).angle < PLANE) parent[root(edge.ahead)] = root(edge.back);
  }
  return parent.map((_, t) => root(t));
}
