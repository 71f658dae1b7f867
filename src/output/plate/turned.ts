import type { Contour, Vec2 } from '../../solid/vector.ts';
import type { Turn } from './plateTypes.ts';

/** Sines and cosines of whole quarters, exact, which `Math.cos` is not. */
const quarters: Readonly<Record<Turn, readonly [cos: number, sin: number]>> = {
  0: [1, 0],
  90: [0, 1],
  180: [-1, 0],
  270: [0, -1],
};

/** Cosine and sine of a turn. */
export const cosSin = (turn: Turn): readonly [number, number] => quarters[turn];

/** Contours turned about z and moved so that the front left corner of their box is the origin. */
export function turned(contours: readonly Contour[], turn: Turn): readonly Contour[] {
  const [cos, sin] = quarters[turn];
  const about = contours.map((contour) =>
    contour.map(([x, y]): Vec2 => [cos * x - sin * y, sin * x + cos * y]),
  );
  const { min } = boxOf(about);
  return about.map((contour) => contour.map(([x, y]): Vec2 => [x - min[0], y - min[1]]));
}

/** Box around contours, mm. Throws `RangeError` where there is nothing. */
export function boxOf(contours: readonly Contour[]): { readonly min: Vec2; readonly max: Vec2 } {
  const min: Vec2 = [Infinity, Infinity];
  const max: Vec2 = [-Infinity, -Infinity];
  for (const contour of contours)
    for (const [x, y] of contour) {
      min[0] = Math.min(min[0], x);
      min[1] = Math.min(min[1], y);
      max[0] = Math.max(max[0], x);
      max[1] = Math.max(max[1], y);
    }
  if (!(min[0] <= max[0])) throw new RangeError('boxOf requires at least 1 point (given none)');
  return { min, max };
}
