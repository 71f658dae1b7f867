import type { Surface } from './surfaceOf.ts';

/** Slivers that lie on one another are followed this far. */
const MOST_STEPS = 32;

/** The number of the flat face each triangle belongs to: the number of its first triangle. A sliver, three corners on a line, is flat
 *  against every face around it; it belongs to the face beyond its long side, for its short sides are the outline. */
export function facetsOf({ mesh, mates, flat, heights, slim }: Surface): Int32Array {
  const count = mates.length / 3;
  const facet = new Int32Array(count).fill(-1);
  const queue = new Int32Array(count);
  for (let first = 0; first < count; first++) {
    if (facet[first] !== -1 || heights[first]! < slim) continue;
    facet[first] = first;
    queue[0] = first;
    let length = 1;
    for (let i = 0; i < length; i++) {
      for (let h = 3 * queue[i]!; h < 3 * queue[i]! + 3; h++) {
        if (!flat[h]) continue;
        const t = Math.floor(mates[h]! / 3);
        if (facet[t] !== -1 || heights[t]! < slim) continue;
        facet[t] = first;
        queue[length++] = t;
      }
    }
  }
  for (let t = 0; t < count; t++) {
    if (facet[t] !== -1) continue;
    let beyond = t;
    for (let step = 0; step < MOST_STEPS && heights[beyond]! < slim; step++) {
      const mate = mates[longSide(beyond)]!;
      if (mate === -1) break;
      beyond = Math.floor(mate / 3);
    }
    facet[t] = heights[beyond]! < slim ? t : facet[beyond]!;
  }
  return facet;

  function longSide(t: number): number {
    const { positions: p, triangles } = mesh;
    let [side, longest] = [3 * t, -1];
    for (let h = 3 * t; h < 3 * t + 3; h++) {
      const [a, b] = [3 * triangles[h]!, 3 * triangles[h % 3 === 2 ? h - 2 : h + 1]!];
      const square = (p[b]! - p[a]!) ** 2 + (p[b + 1]! - p[a + 1]!) ** 2 + (p[b + 2]! - p[a + 2]!) ** 2;
      if (square > longest) [side, longest] = [h, square];
    }
    return side;
  }
}
