import { TableRefusal } from '../tableRefusal.ts';
import { dividedRanges, rangeOf, sizeRanges } from './sizeRanges.ts';

/** Letters of the shafts that are in common use; the holes are the same in capitals. */
export const deviationLetters = ['c', 'd', 'e', 'f', 'g', 'h', 'js', 'k', 'm', 'n', 'p', 'r', 's'] as const;
export type DeviationLetter = (typeof deviationLetters)[number];

/** Distance of the nearer limit of a shaft from the nominal size, micrometres, without its sign: below it for c to h,
 *  above it for k to s. A column a range of `sizeRanges`; c, r and s a range of `dividedRanges`.
 *
 *  ISO 286-1:2010, tables 4 and 5. f, g, h, k, m, n, p and s up to 50 mm read in public copies; the others, and sizes
 *  above, from memory. k is for grades 4 to 7; in all others it is 0. */
const FUNDAMENTAL: Readonly<Record<Exclude<DeviationLetter, 'h' | 'js'>, readonly number[]>> = {
  c: [
    60, 70, 80, 95, 95, 110, 110, 120, 130, 140, 150, 170, 180, 200, 210, 230, 240, 260, 280, 300, 330, 360,
    400, 440, 480,
  ],
  d: [20, 30, 40, 50, 65, 80, 100, 120, 145, 170, 190, 210, 230],
  e: [14, 20, 25, 32, 40, 50, 60, 72, 85, 100, 110, 125, 135],
  f: [6, 10, 13, 16, 20, 25, 30, 36, 43, 50, 56, 62, 68],
  g: [2, 4, 5, 6, 7, 9, 10, 12, 14, 15, 17, 18, 20],
  k: [0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5],
  m: [2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23],
  n: [4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40],
  p: [6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68],
  r: [10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132],
  s: [
    14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232,
    252,
  ],
};

/** Grades in which k stands off the nominal size. ISO 286-1:2010, table 5. */
const K_GRADES = { from: 4, to: 7 } as const;

/** Fundamental deviation of a shaft, micrometres, with its sign: es for c to h (0 or below), ei for k to s (0 or above).
 *  `nominal` in mm, above 0, at most 500. js has none; `shaftLimits` knows. ISO 286-1:2010, tables 4 and 5.
 *  Throws `size_outside_table`, `deviation_unknown`.
 *  @example shaftDeviation('f', 7, 25) // => -20 */
export function shaftDeviation(
  letter: Exclude<DeviationLetter, 'js'>,
  grade: number,
  nominal: number,
): number {
  const place = rangeOf(sizeRanges, nominal);
  if (letter === 'h') return 0;
  const column = FUNDAMENTAL[letter];
  if (column === undefined)
    throw new TableRefusal(
      'deviation_unknown',
      'ISO 286-1',
      String(letter),
      `one of ${deviationLetters.join(', ')}`,
    );
  if (letter === 'k' && (grade < K_GRADES.from || grade > K_GRADES.to)) return 0;
  const size =
    column.length === sizeRanges.length ? column[place]! : column[rangeOf(dividedRanges, nominal)]!;
  return letter < 'h' ? -size : size;
}
