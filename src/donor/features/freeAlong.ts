import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';

/** How far a thin wire goes from a point along a unit direction before it meets the mesh; Infinity when it never does. */
export function freeAlong({ positions: p, triangles }: DonorMesh, from: Vec3, direction: Vec3): number {
  const [ox, oy, oz] = from;
  const [dx, dy, dz] = direction;
  let nearest = Infinity;
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [3 * triangles[i]!, 3 * triangles[i + 1]!, 3 * triangles[i + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [hx, hy, hz] = [dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx];
    const det = ux * hx + uy * hy + uz * hz;
    if (det === 0) continue;
    const [sx, sy, sz] = [ox - p[a]!, oy - p[a + 1]!, oz - p[a + 2]!];
    const u = (sx * hx + sy * hy + sz * hz) / det;
    if (u < 0 || u > 1) continue;
    const [qx, qy, qz] = [sy * uz - sz * uy, sz * ux - sx * uz, sx * uy - sy * ux];
    const v = (dx * qx + dy * qy + dz * qz) / det;
    if (v < 0 || u + v > 1) continue;
    const t = (vx * qx + vy * qy + vz * qz) / det;
    if (t > 0 && t < nearest) nearest = t;
  }
  return nearest;
}
