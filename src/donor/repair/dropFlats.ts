import type { DonorMesh } from '../types.ts';
import { pointOf } from './geometry.ts';
import { beforeOf, nextOf } from './pairing.ts';
import type { Step } from './step.ts';

/** Height below which a triangle is flat, against the largest coordinate: four steps of a 32-bit number, so that corners
 *  which lay on a line before they were written down do so again. */
const FLAT = 2 ** -22;

/** Rounds at most; each hands corners on to neighbours that may be flat themselves. */
const ROUNDS = 8;

/** Takes out triangles without height on their longest side: the corner on that side is given to the neighbour across.
 *  No vertex moves and the number of triangles stays, so the surface stays where it is, within `FLAT`. A flat
 *  triangle that cannot go without an edge for four triangles stays. Changes `mate` along with the triangles. */
export function dropFlats(mesh: DonorMesh, mate: Int32Array): Step {
  const { positions } = mesh;
  let reach = 0;
  for (const value of positions) reach = Math.max(reach, Math.abs(value));
  const height = FLAT * reach;
  const triangles = mesh.triangles.slice();
  let waiting: number[] = [];
  for (let t = 0; t < triangles.length / 3; t++)
    if (flatSide(positions, triangles, t, height) !== null) waiting.push(t);
  if (waiting.length === 0) return { mesh, count: 0, at: null };
  const at = pointOf(mesh, triangles[3 * waiting[0]!]!);
  let count = 0;
  for (let round = 0; round < ROUNDS && waiting.length > 0; round++) {
    const touched = new Set<number>();
    for (const t of waiting) {
      const side = flatSide(positions, triangles, t, height);
      if (side === null) continue;
      const across = Math.floor(mate[side]! / 3);
      if (!flip(triangles, mate, side)) continue;
      count++;
      touched.add(t).add(across);
    }
    waiting = [...touched].filter((t) => flatSide(positions, triangles, t, height) !== null);
  }
  return count === 0 ? { mesh, count, at: null } : { mesh: { positions, triangles }, count, at };
}

/** The longest side of a triangle, as a half-edge, when the third corner lies on it between its ends; else null. */
function flatSide(p: Float64Array, triangles: Uint32Array, t: number, height: number): number | null {
  let side = 3 * t;
  let longest = -1;
  let shortest = Infinity;
  for (let h = 3 * t; h < 3 * t + 3; h++) {
    const [a, b] = [3 * triangles[h]!, 3 * triangles[nextOf(h)]!];
    const square = (p[b]! - p[a]!) ** 2 + (p[b + 1]! - p[a + 1]!) ** 2 + (p[b + 2]! - p[a + 2]!) ** 2;
    if (square > longest) [side, longest] = [h, square];
    shortest = Math.min(shortest, square);
  }
  // A short side is no seam: what makes such a triangle flat is two corners in one place.
  if (shortest <= height * height) return null;
  const [a, b, c] = [3 * triangles[side]!, 3 * triangles[nextOf(side)]!, 3 * triangles[beforeOf(side)]!];
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const area = (uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2;
  return area <= height * height * longest ? side : null;
}

/** Puts the edge between a flat triangle's longest side and the neighbour across the other way. False, and nothing
 *  done, when the two far corners are joined by an edge already. */
function flip(triangles: Uint32Array, mate: Int32Array, h: number): boolean {
  const g = mate[h]!;
  const [hNext, hBefore, gNext, gBefore] = [nextOf(h), beforeOf(h), nextOf(g), beforeOf(g)];
  const [from, to] = [triangles[h]!, triangles[hNext]!];
  const [middle, far] = [triangles[hBefore]!, triangles[gBefore]!];
  if (middle === far) return false;
  for (let c = hBefore, first = true; first || c !== hBefore; c = nextOf(mate[c]!), first = false)
    if (triangles[nextOf(c)] === far) return false;
  const [fromMiddle, farFrom, toFar, middleTo] = [mate[hBefore]!, mate[gNext]!, mate[gBefore]!, mate[hNext]!];
  // Triangle of h: middle -> from -> far; triangle of g: far -> to -> middle.
  const [t, s] = [h - (h % 3), g - (g % 3)];
  triangles[t] = middle;
  triangles[t + 1] = from;
  triangles[t + 2] = far;
  triangles[s] = far;
  triangles[s + 1] = to;
  triangles[s + 2] = middle;
  const join = (a: number, b: number): void => {
    mate[a] = b;
    mate[b] = a;
  };
  // Where the two shared a second edge, its halves are among those that moved.
  const moved = (m: number): number =>
    m === hBefore ? t : m === gNext ? t + 1 : m === gBefore ? s : m === hNext ? s + 1 : m;
  join(t, moved(fromMiddle));
  join(t + 1, moved(farFrom));
  join(s, moved(toFar));
  join(s + 1, moved(middleTo));
  join(t + 2, s + 2);
  return true;
}
