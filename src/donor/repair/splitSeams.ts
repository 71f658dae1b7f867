import { dot, lengthOf, subtract, type Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { pointOf } from './geometry.ts';
import { nextOf, type Pairing } from './pairing.ts';
import type { Step } from './step.ts';

/** An open edge: its ends, and the triangle that has it. */
interface OpenEdge {
  u: number;
  v: number;
  triangle: number;
  open: boolean;
}

/** Open edges at one vertex beyond which nothing is paired there: a surface that meets so is no seam. */
const MOST_AT_VERTEX = 32;

/** Closes seams where the corners of one side lie on edges of the other: from each end of a seam, the longer of two
 *  open edges that run along each other within `tolerance` is split where the shorter one ends, and so on. Nothing
 *  moves. Which way the triangles face does not matter. Every step closes an edge, so it ends. */
export function splitSeams(mesh: DonorMesh, { open }: Pairing, tolerance: number): Step {
  const triangles = [...mesh.triangles];
  const edges: OpenEdge[] = open.map((h) => ({
    u: triangles[h]!,
    v: triangles[nextOf(h)]!,
    triangle: Math.floor(h / 3),
    open: true,
  }));
  const at = new Map<number, OpenEdge[]>();
  const list = (vertex: number, edge: OpenEdge): void => {
    const there = at.get(vertex);
    if (there) there.push(edge);
    else at.set(vertex, [edge]);
  };
  for (const edge of edges) {
    list(edge.u, edge);
    list(edge.v, edge);
  }

  let count = 0;
  let first: Vec3 | null = null;
  /** Splits the triangle of `edge` at the vertex `mid`, which lies on it; `from` keeps the nearer half. */
  const split = (edge: OpenEdge, from: number, mid: number): OpenEdge => {
    const to = edge.u === from ? edge.v : edge.u;
    const base = 3 * edge.triangle;
    const fresh = triangles.length / 3;
    const far = [0, 1, 2].map((k) => triangles[base + k]!).find((w) => w !== from && w !== to)!;
    const corners = [0, 1, 2].map((k) => triangles[base + k]!);
    for (let k = 0; k < 3; k++) {
      triangles[base + k] = corners[k] === to ? mid : corners[k]!;
      triangles.push(corners[k] === from ? mid : corners[k]!);
    }
    // The side from `to` to the far corner went to the new triangle; it may be open as well.
    for (const other of at.get(to) ?? [])
      if (other.open && other.triangle === edge.triangle && (other.u === far || other.v === far))
        other.triangle = fresh;
    count++;
    first ??= pointOf(mesh, mid);
    return { u: mid, v: to, triangle: fresh, open: true };
  };

  const waiting = [...at.keys()].sort((a, b) => b - a);
  for (let a = waiting.pop(); a !== undefined; a = waiting.pop()) {
    const here = at.get(a)!.filter((edge) => edge.open);
    at.set(a, here);
    if (here.length > MOST_AT_VERTEX) continue;
    const pair = pairAlong(mesh, triangles, a, here, tolerance);
    if (pair === null) continue;
    const [shorter, longer] = pair;
    const mid = shorter.u === a ? shorter.v : shorter.u;
    const end = longer.u === a ? longer.v : longer.u;
    if (mid !== end) {
      const rest = split(longer, a, mid);
      list(mid, rest);
      list(end, rest);
    }
    shorter.open = longer.open = false;
    waiting.push(end, mid, a);
  }
  if (count === 0) return { mesh, count, at: null };
  return { mesh: { positions: mesh.positions, triangles: Uint32Array.from(triangles) }, count, at: first };
}

/** Two open edges from `a` that run along each other, the shorter first. */
function pairAlong(
  mesh: DonorMesh,
  triangles: readonly number[],
  a: number,
  edges: readonly OpenEdge[],
  tolerance: number,
): [OpenEdge, OpenEdge] | null {
  const start = pointOf(mesh, a);
  const arms = edges.map((edge) => {
    const end = edge.u === a ? edge.v : edge.u;
    const along = subtract(pointOf(mesh, end), start);
    return { edge, end, along, length: lengthOf(along) };
  });
  arms.sort((p, q) => p.length - q.length);
  for (let i = 0; i < arms.length; i++)
    for (let j = i + 1; j < arms.length; j++) {
      const [shorter, longer] = [arms[i]!, arms[j]!];
      if (shorter.edge.triangle === longer.edge.triangle || longer.length === 0) continue;
      // Split at a corner of its own, a triangle would fold up.
      const base = 3 * longer.edge.triangle;
      const own = [0, 1, 2].some((k) => triangles[base + k] === shorter.end);
      if (own && shorter.end !== longer.end) continue;
      const share = dot(shorter.along, longer.along) / (longer.length * longer.length);
      if (share <= 0) continue;
      const off: Vec3 = [0, 1, 2].map((k) => shorter.along[k]! - share * longer.along[k]!) as Vec3;
      if (lengthOf(off) <= tolerance) return [shorter.edge, longer.edge];
    }
  return null;
}
