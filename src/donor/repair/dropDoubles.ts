import type { DonorMesh } from '../types.ts';
import { middleOf, withTriangles } from './geometry.ts';
import { nextOf, type Pairing } from './pairing.ts';
import type { Step } from './step.ts';

/** Takes out triangles that lie on another one with the same corners and face the same way, as happens when a
 *  part is written twice into one file. Two that face opposite ways stay: they may be faces of two bodies that touch. */
export function dropDoubles(mesh: DonorMesh, { crowded }: Pairing): Step {
  const { triangles } = mesh;
  const known = new Set<string>();
  const seen = new Set<number>();
  const doubles = new Set<number>();
  let first: number | null = null;
  for (const half of crowded.flat()) {
    const t = Math.floor(half / 3);
    if (seen.has(t)) continue;
    seen.add(t);
    const key = fromLowest(triangles, t);
    if (known.has(key)) {
      doubles.add(t);
      first ??= half;
    } else known.add(key);
  }
  if (doubles.size === 0) return { mesh, count: 0, at: null };
  return {
    mesh: withTriangles(mesh, (t) => !doubles.has(t)),
    count: doubles.size,
    at: middleOf(mesh, first!),
  };
}

/** Corners in their order around the triangle, begun at the lowest. */
function fromLowest(triangles: Uint32Array, t: number): string {
  let h = 3 * t;
  for (let k = 3 * t + 1; k < 3 * t + 3; k++) if (triangles[k]! < triangles[h]!) h = k;
  return `${triangles[h]} ${triangles[nextOf(h)]} ${triangles[nextOf(nextOf(h))]}`;
}
