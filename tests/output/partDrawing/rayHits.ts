import type { View } from '../../../src/output/drawing/index.ts';
import type { Mesh } from '../../../src/solid/mesh.ts';
import { nineAt } from '../../solid/nineAt.ts';

/** Where a ray against the line of sight meets a mesh: how near to the reader, mm, and how squarely, as the normal there. */
export interface Hit {
  readonly depth: number;
  readonly normal: readonly [number, number, number];
}

/** Rays by brute force: every triangle is asked, by its barycentric coordinates. Shares nothing with the drawing's own way. */
export function rayCaster(
  { positions, triangles }: Mesh,
  { right, up, toward }: View,
): (x: number, y: number) => Hit[] {
  const count = triangles.length / 3;
  const flat = new Float64Array(9 * count);
  const box = new Float64Array(4 * count);
  const normals: (readonly [number, number, number])[] = [];
  for (let t = 0; t < count; t++) {
    for (let k = 0; k < 3; k++) {
      const v = 3 * triangles[3 * t + k]!;
      [right, up, toward].forEach((axis, n) => {
        flat[9 * t + 3 * k + n] =
          positions[v]! * axis[0] + positions[v + 1]! * axis[1] + positions[v + 2]! * axis[2];
      });
    }
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = nineAt(flat, 9 * t);
    box.set([Math.min(ax, bx, cx), Math.max(ax, bx, cx), Math.min(ay, by, cy), Math.max(ay, by, cy)], 4 * t);
    const n = [
      (by - ay) * (cz - az) - (bz - az) * (cy - ay),
      (bz - az) * (cx - ax) - (bx - ax) * (cz - az),
      (bx - ax) * (cy - ay) - (by - ay) * (cx - ax),
    ];
    const size = Math.hypot(...n);
    normals.push([n[0]! / size, n[1]! / size, n[2]! / size]);
  }
  return (x, y) => {
    const hits: Hit[] = [];
    for (let t = 0; t < count; t++) {
      if (x < box[4 * t]! || x > box[4 * t + 1]! || y < box[4 * t + 2]! || y > box[4 * t + 3]!) continue;
      const k = 9 * t;
      const [x0, y0] = [flat[k]!, flat[k + 1]!];
      const [x1, y1] = [flat[k + 3]! - x0, flat[k + 4]! - y0];
      const [x2, y2] = [flat[k + 6]! - x0, flat[k + 7]! - y0];
      const whole = x1 * y2 - x2 * y1;
      if (Math.abs(whole) < 1e-12) continue;
      const s = ((x - x0) * y2 - x2 * (y - y0)) / whole;
      const u = (x1 * (y - y0) - (x - x0) * y1) / whole;
      if (s < 0 || u < 0 || s + u > 1) continue;
      const z0 = flat[k + 2]!;
      hits.push({ depth: z0 + s * (flat[k + 5]! - z0) + u * (flat[k + 8]! - z0), normal: normals[t]! });
    }
    return hits.sort((a, b) => b.depth - a.depth);
  };
}
