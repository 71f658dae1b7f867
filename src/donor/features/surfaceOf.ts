import { boxDiagonal } from '../boxOf.ts';
import type { DonorMesh } from '../types.ts';
import { edgeMates } from './edgeMates.ts';

/** What the surface of a mesh looks like around each triangle, reckoned once for every search. */
export interface Surface {
  readonly mesh: DonorMesh;
  /** See `edgeMates`. */
  readonly mates: Int32Array;
  /** Unit normals, outward; zero for a triangle without area. */
  readonly normals: Float64Array;
  readonly areas: Float64Array;
  /** Height over the longest side. */
  readonly heights: Float64Array;
  /** Angle by which the surface turns at a half-edge, radians; above 0 where it bulges, below 0 in a corner. */
  readonly bends: Float32Array;
  /** 1 at half-edges inside a flat face. */
  readonly flat: Uint8Array;
  /** Diagonal of the box around the part. */
  readonly diagonal: number;
  /** Thinner triangles have no normal to speak of. */
  readonly slim: number;
}

/** Turns below this are none, radians: a circle of 3600 facets is still round. */
const LEAST_BEND = 0.0015;
/** Turns above this are meant, however small the triangles, radians. */
export const SURE_BEND = 0.026;
/** Share of the diagonal by which coordinates may be off: 32-bit files keep 1e-7, files that were written with few
 *  digits some 1e-6. From memory. */
const NOISE = 8e-6;

/** Looks over a mesh. n log n at worst; some 60 bytes a triangle. */
export function surfaceOf(mesh: DonorMesh): Surface {
  const { positions: p, triangles } = mesh;
  const count = triangles.length / 3;
  const diagonal = boxDiagonal(p);
  const noise = NOISE * diagonal;
  const slim = 4 * noise;
  const mates = edgeMates(triangles);
  const normals = new Float64Array(3 * count);
  const areas = new Float64Array(count);
  const heights = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const [x, y, z] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const twice = Math.sqrt(x * x + y * y + z * z);
    const longest = Math.sqrt(
      Math.max(
        ux * ux + uy * uy + uz * uz,
        vx * vx + vy * vy + vz * vz,
        (ux - vx) ** 2 + (uy - vy) ** 2 + (uz - vz) ** 2,
      ),
    );
    areas[t] = twice / 2;
    heights[t] = longest === 0 ? 0 : twice / longest;
    if (twice > 0) {
      normals[3 * t] = x / twice;
      normals[3 * t + 1] = y / twice;
      normals[3 * t + 2] = z / twice;
    }
  }

  const bends = new Float32Array(3 * count);
  const flat = new Uint8Array(3 * count);
  for (let h = 0; h < 3 * count; h++) {
    const mate = mates[h]!;
    const from = triangles[h]!;
    // Where there is no mate it is below h, too.
    if (mate < h) continue;
    const [s, t] = [3 * Math.floor(h / 3), 3 * Math.floor(mate / 3)];
    const [ax, ay, az] = [normals[s]!, normals[s + 1]!, normals[s + 2]!];
    const [bx, by, bz] = [normals[t]!, normals[t + 1]!, normals[t + 2]!];
    const turn = Math.atan2(
      Math.hypot(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx),
      ax * bx + ay * by + az * bz,
    );
    const opposite = 3 * triangles[t + ((mate + 2) % 3)]!;
    const above =
      ax * (p[opposite]! - p[3 * from]!) +
      ay * (p[opposite + 1]! - p[3 * from + 1]!) +
      az * (p[opposite + 2]! - p[3 * from + 2]!);
    const bend = above > 0 ? -turn : turn;
    bends[h] = bend;
    bends[mate] = bend;
    const height = Math.min(heights[s / 3]!, heights[t / 3]!);
    if (turn < LEAST_BEND || (turn * height < noise && (turn < SURE_BEND || height < slim))) {
      flat[h] = 1;
      flat[mate] = 1;
    }
  }
  return { mesh, mates, normals, areas, heights, bends, flat, diagonal, slim };
}
