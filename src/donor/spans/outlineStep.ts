import type { Outline } from './section.ts';

/** Places of an outline that are looked at; more tell nothing that callipers read. */
const LOOKED_AT = 400;

/** How far two outlines step apart where they differ most: the farthest that an end or a middle of a piece of either lies
 *  from the other. Outlines of many pieces are looked at in 400 places, evenly picked. `Infinity` where one is empty.
 *  @example outlineStep(squareOfSide2, squareOfSide3) // about the same middle => Math.SQRT1_2 */
export const outlineStep = (a: Outline, b: Outline): number =>
  a.length === 0 && b.length === 0 ? 0 : Math.max(farthest(a, b), farthest(b, a));

function farthest(points: Outline, outline: Outline): number {
  if (points.length === 0 || outline.length === 0) return Infinity;
  const pieces = points.length / 4;
  const count = Math.min(pieces, LOOKED_AT);
  let square = 0;
  for (let n = 0; n < count; n++) {
    const k = 4 * Math.floor((n * pieces) / count);
    const [x, y, p, q] = [points[k]!, points[k + 1]!, points[k + 2]!, points[k + 3]!];
    square = Math.max(square, squareTo(outline, x, y), squareTo(outline, (x + p) / 2, (y + q) / 2));
  }
  return Math.sqrt(square);
}

function squareTo(outline: Outline, x: number, y: number): number {
  let least = Infinity;
  for (let k = 0; k < outline.length; k += 4) least = Math.min(least, squareToPiece(outline, k, x, y));
  return least;
}

/** Square of the distance from a point to the piece that begins at `k`. */
export function squareToPiece(outline: Outline, k: number, x: number, y: number): number {
  const [ax, ay] = [outline[k]!, outline[k + 1]!];
  const [dx, dy] = [outline[k + 2]! - ax, outline[k + 3]! - ay];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / square));
  return (x - ax - share * dx) ** 2 + (y - ay - share * dy) ** 2;
}
