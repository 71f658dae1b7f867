import type { Mesh } from '../../solid/mesh.ts';
import { cross, dot, lengthOf, subtract, type Vec3 } from '../../solid/vector.ts';
import { project, type View } from './view.ts';

/** An edge between two triangles. */
export interface Edge {
  /** Vertex numbers. */
  readonly from: number;
  readonly to: number;
  /** The triangle that runs from -> to, and the one that runs back; -1 where the mesh is open. */
  readonly ahead: number;
  readonly back: number;
}

/** A mesh made ready for drawing: seen in one view, same points joined, faces with normals. */
export interface FacetedSolid {
  /** Right, up, toward the reader, mm. */
  readonly points: readonly Readonly<Vec3>[];
  readonly triangles: readonly (readonly [number, number, number])[];
  /** Unit normals in the frame of the view. */
  readonly normals: readonly Readonly<Vec3>[];
  readonly edges: readonly Edge[];
}

/** Points closer than this are one, mm: files keep 32 bits, which at 1 m is 0.06 um. */
const SAME = 1e-5;

/** Turns a mesh into the frame of a view. Triangles without area are left out, for they have no normal. */
export function facetedSolid(mesh: Mesh, view: View): FacetedSolid {
  const { points, vertexOf } = weld(mesh, view);
  const triangles: [number, number, number][] = [];
  const normals: Vec3[] = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => vertexOf[mesh.triangles[t + k]!]!) as [number, number, number];
    const n = cross(subtract(points[b]!, points[a]!), subtract(points[c]!, points[a]!));
    const size = lengthOf(n);
    if (a === b || b === c || c === a || size < SAME * SAME) continue;
    triangles.push([a, b, c]);
    normals.push([n[0] / size, n[1] / size, n[2] / size]);
  }
  return { points, triangles, normals, edges: edgesOf(triangles) };
}

function weld(mesh: Mesh, view: View): { points: Vec3[]; vertexOf: number[] } {
  const known = new Map<string, number>();
  const points: Vec3[] = [];
  const vertexOf: number[] = [];
  for (let v = 0; v < mesh.positions.length; v += 3) {
    const p: Vec3 = [mesh.positions[v]!, mesh.positions[v + 1]!, mesh.positions[v + 2]!];
    const key = p.map((c) => Math.round(c / SAME)).join();
    let vertex = known.get(key);
    if (vertex === undefined) {
      vertex = points.push(project(view, p)) - 1;
      known.set(key, vertex);
    }
    vertexOf.push(vertex);
  }
  return { points, vertexOf };
}

function edgesOf(triangles: readonly (readonly [number, number, number])[]): Edge[] {
  const edges: { from: number; to: number; ahead: number; back: number }[] = [];
  const open = new Map<string, { back: number }>();
  triangles.forEach((triangle, t) => {
    for (let k = 0; k < 3; k++) {
      const [from, to] = [triangle[k]!, triangle[(k + 1) % 3]!];
      const partner = open.get(`${to},${from}`);
      if (partner) {
        partner.back = t;
        open.delete(`${to},${from}`);
        continue;
      }
      const edge = { from, to, ahead: t, back: -1 };
      edges.push(edge);
      open.set(`${from},${to}`, edge);
    }
  });
  return edges;
}

/** Angle by which the surface turns at an edge, radians, 0 for a flat one, and whether it turns outward.
 *  An open edge counts as turned by a half turn. */
export function turnAt(
  solid: FacetedSolid,
  { from, to, ahead, back }: Edge,
): { angle: number; convex: boolean } {
  if (back < 0) return { angle: Math.PI, convex: true };
  const [n, m] = [solid.normals[ahead]!, solid.normals[back]!];
  const along = subtract(solid.points[to]!, solid.points[from]!);
  const bend = cross(n, m);
  return { angle: Math.atan2(lengthOf(bend), dot(n, m)), convex: dot(bend, along) >= 0 };
}
