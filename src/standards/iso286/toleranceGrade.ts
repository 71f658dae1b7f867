import { power } from '../../arithmetic/power.ts';
import { TableRefusal } from '../tableRefusal.ts';
import { rangeOf, sizeRanges } from './sizeRanges.ts';

/** Standard tolerances IT1 to IT11, micrometres, a row a grade, a column a range of `sizeRanges`.
 *
 *  ISO 286-1:2010, table 1; IT5 to IT11 up to 120 mm read in a public copy, the others from memory. The rows are the
 *  printed ones: the standard's formula, multiples of i = 0.45 D^(1/3) + 0.001 D, gives them only to within its rounding,
 *  and up to 10 mm the printed values depart from it further (IT10 up to 3 mm: 34.7 becomes 40). */
const TO_ELEVEN = [
  [0.8, 1, 1, 1.2, 1.5, 1.5, 2, 2.5, 3.5, 4.5, 6, 7, 8],
  [1.2, 1.5, 1.5, 2, 2.5, 2.5, 3, 4, 5, 7, 8, 9, 10],
  [2, 2.5, 2.5, 3, 4, 4, 5, 6, 8, 10, 12, 13, 15],
  [3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20],
  [4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27],
  [6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40],
  [10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63],
  [14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97],
  [25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155],
  [40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250],
  [60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400],
] as const;

/** Coarsest grade of the standard. */
const COARSEST = 18;

/** Largest nominal size the coarse grades are not meant for, mm, and the first of them. ISO 286-1:2010, table 1, note. */
const SMALL = { upTo: 1, coarseFrom: 14 } as const;

/** Width of a standard tolerance, micrometres, not rounded off. `grade` 1 to 18, `nominal` in mm, above 0, at most 500;
 *  IT14 and coarser only above 1 mm. ISO 286-1:2010, table 1.
 *  Throws `grade_unknown`, `size_outside_table`.
 *  @example toleranceGrade(7, 25) // => 21 */
export function toleranceGrade(grade: number, nominal: number): number {
  const range = rangeOf(sizeRanges, nominal);
  const coarsest = nominal <= SMALL.upTo ? SMALL.coarseFrom - 1 : COARSEST;
  if (!Number.isInteger(grade) || grade < 1 || grade > coarsest) {
    const where = coarsest === COARSEST ? '' : ` up to ${SMALL.upTo} mm`;
    throw new TableRefusal(
      'grade_unknown',
      'ISO 286-1',
      `IT${grade}`,
      `a grade from 1 to ${coarsest}${where}`,
    );
  }
  // From IT6 on every fifth grade is ten times as wide (ISO 286-1:1988, A.3).
  const repeats = Math.max(0, Math.ceil((grade - TO_ELEVEN.length) / 5));
  return TO_ELEVEN[grade - 5 * repeats - 1]![range]! * power(10, repeats);
}
