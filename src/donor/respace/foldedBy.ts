import type { AxisFrame } from '../spans/axisFrame.ts';
import type { LevelMap } from './levelMap.ts';

/** Less than this share of its area left, turned over or not, is no triangle any more. */
const KEPT = 1e-7;

/** Twice the area over the longest side squared, below which a triangle has no side it faces. */
export const SLIVER = 1e-10;

/** Triangles with corners on more than one piece of the map, and those among them that moving the corners would turn
 *  over, flatten, or open up from nothing, so that nobody knows which way they face. On one piece alone the map only
 *  stretches, which turns nothing over. */
export function foldedBy(
  triangles: Uint32Array,
  { coordinates: c, u, v }: AxisFrame,
  levels: Float64Array,
  map: LevelMap,
): { readonly across: readonly number[]; readonly folded: readonly number[] } {
  const pieces = new Uint16Array(levels.length);
  for (let k = 0; k < pieces.length; k++) pieces[k] = map.piece(levels[k]!);
  const [across, folded]: [number[], number[]] = [[], []];
  for (let t = 0; t < triangles.length; t += 3) {
    const p = triangles[t]!;
    const q = triangles[t + 1]!;
    const r = triangles[t + 2]!;
    if (pieces[p] === pieces[q] && pieces[q] === pieces[r]) continue;
    across.push(t / 3);
    const bu = c[3 * q + u]! - c[3 * p + u]!;
    const bv = c[3 * q + v]! - c[3 * p + v]!;
    const bh = levels[q]! - levels[p]!;
    const du = c[3 * r + u]! - c[3 * p + u]!;
    const dv = c[3 * r + v]! - c[3 * p + v]!;
    const dh = levels[r]! - levels[p]!;
    const still = map.shift(levels[p]!);
    const bAfter = bh + map.shift(levels[q]!) - still;
    const dAfter = dh + map.shift(levels[r]!) - still;
    const seen = bu * dv - bv * du;
    const nu = bv * dh - bh * dv;
    const nv = bh * du - bu * dh;
    const mu = bv * dAfter - bAfter * dv;
    const mv = bAfter * du - bu * dAfter;
    const before = nu * nu + nv * nv + seen * seen;
    const after = mu * mu + mv * mv + seen * seen;
    const flat = (SLIVER * (bu * bu + bv * bv + bh * bh + du * du + dv * dv + dh * dh)) ** 2;
    if (before <= flat && after <= flat) continue;
    if (before <= flat || nu * mu + nv * mv + seen * seen <= KEPT * before) folded.push(t / 3);
  }
  return { across, folded };
}
