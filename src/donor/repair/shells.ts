import type { DonorMesh } from '../types.ts';
import { type Box, boxOf } from './geometry.ts';
import { patchesOf } from './patches.ts';

/** The closed surfaces of a mesh. */
export interface Shells {
  /** Number of its surface for each triangle. */
  readonly of: Int32Array;
  readonly volumes: Float64Array;
  readonly triangles: Int32Array;
}

/** Parts a closed mesh into its surfaces, with the signed volume of each. */
export function shellsOf(mesh: DonorMesh, mate: Int32Array): Shells {
  const { of, count } = patchesOf(mesh, mate);
  const volumes = new Float64Array(count);
  const triangles = new Int32Array(count);
  const { low, high } = boxOf(mesh);
  // Seen from the middle of the part, so that a part far from the origin loses no digits.
  const [ox, oy, oz] = [0, 1, 2].map((k) => (low[k]! + high[k]!) / 2) as [number, number, number];
  const { positions: p, triangles: tri } = mesh;
  for (let t = 0; t < of.length; t++) {
    const [a, b, c] = [3 * tri[3 * t]!, 3 * tri[3 * t + 1]!, 3 * tri[3 * t + 2]!];
    const [ax, ay, az] = [p[a]! - ox, p[a + 1]! - oy, p[a + 2]! - oz];
    const [bx, by, bz] = [p[b]! - ox, p[b + 1]! - oy, p[b + 2]! - oz];
    const [cx, cy, cz] = [p[c]! - ox, p[c + 1]! - oy, p[c + 2]! - oz];
    const six = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    volumes[of[t]!]! += six;
    triangles[of[t]!]!++;
  }
  // Divided once: sums of whole numbers stay whole.
  for (let s = 0; s < count; s++) volumes[s]! /= 6;
  return { of, volumes, triangles };
}

/** What lies in what, asked surface by surface. */
export interface Nesting {
  /** Surfaces whose box holds all of this one's: those it may lie in. */
  readonly around: (inner: number) => readonly number[];
  /** Whether a surface lies in one of those. Takes as long as that one has triangles. */
  readonly within: (inner: number, outer: number) => boolean;
}

export function nestingOf(mesh: DonorMesh, { of, triangles: sizes }: Shells): Nesting {
  const lists = Array.from(sizes, (size) => new Uint32Array(size));
  const filled = new Int32Array(sizes.length);
  for (let t = 0; t < of.length; t++) lists[of[t]!]![filled[of[t]!]!++] = t;
  const boxes = lists.map((list) => {
    const corners = new Uint32Array(3 * list.length);
    list.forEach((t, k) => {
      corners.set(mesh.triangles.subarray(3 * t, 3 * t + 3), 3 * k);
    });
    return boxOf({ positions: mesh.positions, triangles: corners });
  });
  const inside = (a: Box, b: Box): boolean => {
    for (let k = 0; k < 3; k++) if (a.low[k]! < b.low[k]! || a.high[k]! > b.high[k]!) return false;
    return true;
  };
  return {
    around: (inner) => {
      const outers: number[] = [];
      for (let s = 0; s < boxes.length; s++)
        if (s !== inner && inside(boxes[inner]!, boxes[s]!)) outers.push(s);
      return outers;
    },
    within: (inner, outer) =>
      crossings(mesh, lists[outer]!, mesh.triangles[3 * lists[inner]![0]!]!) % 2 === 1,
  };
}

/** Direction of the ray: along no edge that anybody draws. */
const RAY = [0.8193, 0.4517, 0.3531] as const;

/** How often a ray from a vertex passes through some triangles (Möller and Trumbore, 1997). */
function crossings({ positions: p, triangles }: DonorMesh, list: Uint32Array, vertex: number): number {
  const [dx, dy, dz] = RAY;
  const [sx, sy, sz] = [p[3 * vertex]!, p[3 * vertex + 1]!, p[3 * vertex + 2]!];
  let count = 0;
  for (const t of list) {
    const a = 3 * triangles[3 * t]!;
    const b = 3 * triangles[3 * t + 1]!;
    const c = 3 * triangles[3 * t + 2]!;
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [hx, hy, hz] = [dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx];
    const det = ux * hx + uy * hy + uz * hz;
    if (det === 0) continue;
    const [wx, wy, wz] = [sx - p[a]!, sy - p[a + 1]!, sz - p[a + 2]!];
    const m = (wx * hx + wy * hy + wz * hz) / det;
    if (m < 0 || m > 1) continue;
    const [qx, qy, qz] = [wy * uz - wz * uy, wz * ux - wx * uz, wx * uy - wy * ux];
    const n = (dx * qx + dy * qy + dz * qz) / det;
    if (n < 0 || m + n > 1) continue;
    if ((vx * qx + vy * qy + vz * qz) / det > 0) count++;
  }
  return count;
}
