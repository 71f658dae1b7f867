import type { DonorMesh } from '../types.ts';

/** A vertex this close to a level, as a share of the extent, lies on it. */
const ON = 1e-9;

/** The same surface with every triangle that crosses one of the levels divided there, and the levels of its vertices.
 *  New vertices come after the old ones, exactly on their level as far as `levels` tells. */
export function splitAtLevels(
  mesh: DonorMesh,
  levels: Float64Array,
  at: Float64Array,
): { readonly mesh: DonorMesh; readonly levels: Float64Array } {
  const positions = Array.from(mesh.positions);
  const heights = Array.from(levels);
  let triangles = mesh.triangles;
  const slack = ON * extent(levels);
  for (const level of at) {
    const side = (k: number): number =>
      Math.abs(heights[k]! - level) <= slack ? 0 : Math.sign(heights[k]! - level);
    const cut = new Map<number, number>();
    const count = heights.length;
    const on = (a: number, b: number): number => {
      const [p, q] = a < b ? [a, b] : [b, a];
      const key = p * count + q;
      let vertex = cut.get(key);
      if (vertex === undefined) {
        vertex = heights.length;
        const share = (level - heights[p]!) / (heights[q]! - heights[p]!);
        for (let k = 0; k < 3; k++)
          positions.push(positions[3 * p + k]! + share * (positions[3 * q + k]! - positions[3 * p + k]!));
        heights.push(level);
        cut.set(key, vertex);
      }
      return vertex;
    };
    const pieces: number[] = [];
    for (let t = 0; t < triangles.length; t += 3) {
      const corners = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!] as const;
      const sides = corners.map(side);
      if (!(sides.includes(1) && sides.includes(-1))) {
        pieces.push(...corners);
        continue;
      }
      const touching = sides.indexOf(0);
      // Turned so that the corner that is alone on its side, or the one on the level, comes first.
      const first =
        touching >= 0 ? touching : sides.findIndex((s) => sides.filter((o) => o === s).length === 1);
      const [a, b, c] = [0, 1, 2].map((k) => corners[(first + k) % 3]!) as [number, number, number];
      if (touching >= 0) {
        const m = on(b, c);
        pieces.push(a, b, m, a, m, c);
      } else {
        const [m, n] = [on(a, b), on(c, a)];
        pieces.push(a, m, n, m, b, n, n, b, c);
      }
    }
    triangles = Uint32Array.from(pieces);
  }
  return { mesh: { positions: Float64Array.from(positions), triangles }, levels: Float64Array.from(heights) };
}

function extent(levels: Float64Array): number {
  let [low, high] = [Infinity, -Infinity];
  for (const level of levels) {
    if (level < low) low = level;
    if (level > high) high = level;
  }
  return Math.max(0, high - low);
}
