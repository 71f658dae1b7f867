import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';

/** Position of one vertex. */
export const pointOf = ({ positions }: DonorMesh, vertex: number): Vec3 => [
  positions[3 * vertex]!,
  positions[3 * vertex + 1]!,
  positions[3 * vertex + 2]!,
];

/** Middle of a half-edge. */
export function middleOf(mesh: DonorMesh, h: number): Vec3 {
  const a = pointOf(mesh, mesh.triangles[h]!);
  const b = pointOf(mesh, mesh.triangles[h % 3 === 2 ? h - 2 : h + 1]!);
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
}

/** Smallest box around the vertices in use, and its diagonal; all 0 for a mesh without triangles. */
export interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
  readonly diagonal: number;
}

export function boxOf({ positions, triangles }: DonorMesh): Box {
  if (triangles.length === 0) return { low: [0, 0, 0], high: [0, 0, 0], diagonal: 0 };
  const low: Vec3 = [Infinity, Infinity, Infinity];
  const high: Vec3 = [-Infinity, -Infinity, -Infinity];
  for (const vertex of triangles)
    for (let k = 0; k < 3; k++) {
      const value = positions[3 * vertex + k]!;
      if (value < low[k]!) low[k] = value;
      if (value > high[k]!) high[k] = value;
    }
  return { low, high, diagonal: Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]) };
}

/** Only the triangles that `keep` says, every vertex kept. */
export function withTriangles(mesh: DonorMesh, keep: (t: number) => boolean): DonorMesh {
  const triangles = new Uint32Array(mesh.triangles.length);
  let kept = 0;
  for (let t = 0; t < mesh.triangles.length / 3; t++) {
    if (!keep(t)) continue;
    for (let k = 0; k < 3; k++) triangles[kept++] = mesh.triangles[3 * t + k]!;
  }
  return { positions: mesh.positions, triangles: triangles.slice(0, kept) };
}

/** Only the vertices that triangles use, in their old order. */
export function withoutLoose({ positions, triangles }: DonorMesh): DonorMesh {
  const place = new Int32Array(positions.length / 3).fill(-1);
  for (const v of triangles) place[v] = 0;
  let used = 0;
  for (let v = 0; v < place.length; v++) if (place[v] === 0) place[v] = used++;
  if (used === place.length) return { positions, triangles };
  const kept = new Float64Array(3 * used);
  for (let v = 0; v < place.length; v++)
    if (place[v]! >= 0) kept.set(positions.subarray(3 * v, 3 * v + 3), 3 * place[v]!);
  return { positions: kept, triangles: triangles.map((v) => place[v]!) };
}

/** The same triangles, those that `turn` says facing the other way. */
export function withTurned(mesh: DonorMesh, turn: (t: number) => boolean): DonorMesh {
  const triangles = mesh.triangles.slice();
  for (let t = 0; t < triangles.length / 3; t++) {
    if (!turn(t)) continue;
    const second = triangles[3 * t + 1]!;
    triangles[3 * t + 1] = triangles[3 * t + 2]!;
    triangles[3 * t + 2] = second;
  }
  return { positions: mesh.positions, triangles };
}
