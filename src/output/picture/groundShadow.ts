import { type Mesh, vertexAt } from '../../solid/mesh.ts';
import { add, type Vec3 } from '../../solid/vector.ts';
import { project, type View } from '../drawing/index.ts';
import { light } from './colour.ts';
import { type FlatTriangle, fillTriangle } from './raster.ts';

/** How dark each pixel lies in the soft shadow the meshes cast on the bed under them, 0..1. Seen from below or
 *  from the side there is none: null. `place` takes a point of the view to pixels. */
export function groundShadow(
  meshes: readonly Mesh[],
  view: View,
  place: (p: Readonly<Vec3>) => Vec3,
  width: number,
  height: number,
): Float32Array | null {
  const ray: Vec3 = [0, 1, 2].map(
    (k) => view.right[k]! * light[0] + view.up[k]! * light[1] + view.toward[k]! * light[2],
  ) as Vec3;
  if (view.toward[2] < 0.2 || ray[2] < 0.2) return null;
  const bed = Math.min(...meshes.map((mesh) => lowest(mesh)));
  const mask = new Float32Array(width * height);
  const band = { width, top: 0, rows: height };
  for (const mesh of meshes) {
    const fallen: Vec3[] = [];
    for (let v = 0; v < mesh.positions.length / 3; v++) {
      const p = vertexAt(mesh, v);
      const drop = (p[2] - bed) / ray[2];
      fallen.push(place(project(view, add(p, [-drop * ray[0], -drop * ray[1], -drop * ray[2]]))));
    }
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      const corners = [0, 1, 2].map((k) => fallen[mesh.triangles[t + k]!]!) as unknown as FlatTriangle;
      fillTriangle(corners, band, (cell) => {
        mask[cell] = 1;
      });
    }
  }
  // Three box blurs are a bell, near enough.
  const radius = Math.max(1, Math.round(Math.min(width, height) * 0.012));
  for (let pass = 0; pass < 3; pass++) {
    blur(mask, width, height, 1, width, radius);
    blur(mask, height, width, width, 1, radius);
  }
  return mask;
}

function lowest({ positions }: Mesh): number {
  let low = Infinity;
  for (let k = 2; k < positions.length; k += 3) low = Math.min(low, positions[k]!);
  return low;
}

/** Box blur of `lines` lines of `length` cells, in place. */
function blur(
  mask: Float32Array,
  length: number,
  lines: number,
  step: number,
  stride: number,
  radius: number,
): void {
  const copy = new Float32Array(length);
  const window = 2 * radius + 1;
  for (let line = 0; line < lines; line++) {
    const start = line * stride;
    for (let k = 0; k < length; k++) copy[k] = mask[start + k * step]!;
    let sum = 0;
    for (let k = -radius; k < length; k++) {
      sum += (copy[k + radius] ?? 0) - (copy[k - radius - 1] ?? 0);
      if (k >= 0) mask[start + k * step] = Math.max(0, sum / window);
    }
  }
}
