import type { DonorMesh } from '../types.ts';
import { pointOf, withTriangles } from './geometry.ts';
import { nextOf, type Pairing } from './pairing.ts';
import type { Step } from './step.ts';

/** Makes one vertex of ends of open edges that lie within `tolerance` of one another. Only those are touched: fine
 *  detail on a closed surface stays as it is. Each goes to the nearest that came before it, so the result depends on
 *  the order of the file only. Found by a grid of cells. Triangles that collapse are taken out. */
export function joinOpenCorners(mesh: DonorMesh, { open }: Pairing, tolerance: number): Step {
  const { positions, triangles } = mesh;
  const ends = new Set<number>();
  for (const h of open) ends.add(triangles[h]!).add(triangles[nextOf(h)]!);
  const cells = new Map<string, number[]>();
  const joined = new Map<number, number>();
  let first: number | null = null;
  for (const v of [...ends].sort((a, b) => a - b)) {
    const [x, y, z] = pointOf(mesh, v);
    const [i, j, k] = [Math.floor(x / tolerance), Math.floor(y / tolerance), Math.floor(z / tolerance)];
    let nearest = -1;
    let distance = tolerance;
    for (let di = -1; di <= 1; di++)
      for (let dj = -1; dj <= 1; dj++)
        for (let dk = -1; dk <= 1; dk++)
          for (const w of cells.get(`${i + di} ${j + dj} ${k + dk}`) ?? []) {
            const apart = Math.hypot(
              positions[3 * w]! - x,
              positions[3 * w + 1]! - y,
              positions[3 * w + 2]! - z,
            );
            if (apart < distance) [nearest, distance] = [w, apart];
          }
    if (nearest >= 0) {
      joined.set(v, nearest);
      first ??= v;
      continue;
    }
    const key = `${i} ${j} ${k}`;
    const cell = cells.get(key);
    if (cell) cell.push(v);
    else cells.set(key, [v]);
  }
  if (first === null) return { mesh, count: 0, at: null };
  const welded = { positions, triangles: triangles.map((v) => joined.get(v) ?? v) };
  const { triangles: w } = welded;
  return {
    mesh: withTriangles(
      welded,
      (t) => w[3 * t] !== w[3 * t + 1] && w[3 * t + 1] !== w[3 * t + 2] && w[3 * t + 2] !== w[3 * t],
    ),
    count: joined.size,
    at: pointOf(mesh, first),
  };
}
