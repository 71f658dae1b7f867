import { TableRefusal } from '../tableRefusal.ts';
import { type DeviationLetter, shaftDeviation } from './shaftDeviation.ts';
import { toleranceGrade } from './toleranceGrade.ts';

/** How far the two limits of a size lie from its nominal size, micrometres, with sign. */
export interface Deviations {
  readonly lower: number;
  readonly upper: number;
}

/** A shaft of ISO 286-1: `letter` and `grade` as in f7, `nominal` in mm.
 *  Throws `size_outside_table`, `grade_unknown`, `deviation_unknown`.
 *  @example shaftLimits('f', 7, 25) // => { lower: -41, upper: -20 } */
export function shaftLimits(letter: DeviationLetter, grade: number, nominal: number): Deviations {
  const width = toleranceGrade(grade, nominal);
  if (letter === 'js') return symmetric(width, grade);
  const deviation = shaftDeviation(letter, grade, nominal);
  return letter <= 'h'
    ? { lower: deviation - width, upper: deviation }
    : { lower: deviation, upper: deviation + width };
}

/** A hole of ISO 286-1: `letter` in lower case and `grade`, h and 7 for H7; `nominal` in mm.
 *
 *  The general rule mirrors the shaft: EI = -es, ES = -ei. The special rule (ISO 286-1:2010, 4.3.2.5, table 3) adds
 *  delta = IT(n) - IT(n - 1) to ES, over 3 mm, for K, M, N up to IT8 and P, R, S up to IT7, so that a hole one grade
 *  coarser makes the same fit. Two more entries of table 3: N coarser than IT8 ends at the nominal size over 3 mm, and
 *  M6 from 250 to 315 mm is -9 where the rule gives -11.
 *  Throws as `shaftLimits`; K coarser than IT8 over 3 mm is no hole of the standard, `deviation_unknown`.
 *  @example holeLimits('p', 7, 25) // => { lower: -35, upper: -14 } */
export function holeLimits(letter: DeviationLetter, grade: number, nominal: number): Deviations {
  const width = toleranceGrade(grade, nominal);
  if (letter === 'js') return symmetric(width, grade);
  if (!isTight(letter)) {
    const lower = 0 - shaftDeviation(letter, grade, nominal);
    return { lower, upper: lower + width };
  }
  const upper = upperOfTightHole(letter, grade, nominal);
  return { lower: upper - width, upper };
}

/** Letters above the nominal size as shafts, below it as holes. */
const tightLetters = ['k', 'm', 'n', 'p', 'r', 's'] as const;
type TightLetter = (typeof tightLetters)[number];
const isTight = (letter: DeviationLetter): letter is TightLetter =>
  (tightLetters as readonly string[]).includes(letter);

/** Sizes from here on follow the special rule, mm. */
const SPECIAL_OVER = 3;

function upperOfTightHole(letter: TightLetter, grade: number, nominal: number): number {
  const loose = letter === 'k' || letter === 'm' || letter === 'n';
  if (nominal <= SPECIAL_OVER) return letter === 'k' ? 0 : 0 - shaftDeviation(letter, grade, nominal);
  if (grade > (loose ? 8 : 7)) {
    if (letter === 'k')
      throw new TableRefusal(
        'deviation_unknown',
        'ISO 286-1',
        `K${grade}`,
        `K1 to K8 over ${SPECIAL_OVER} mm`,
      );
    return letter === 'n' ? 0 : -shaftDeviation(letter, grade, nominal);
  }
  if (letter === 'm' && grade === 6 && nominal > 250 && nominal <= 315) return -9;
  // The special rule takes the k of the fine grades whatever the grade of the hole.
  const deviation = shaftDeviation(letter, letter === 'k' ? 6 : grade, nominal);
  const delta = grade > 1 ? toleranceGrade(grade, nominal) - toleranceGrade(grade - 1, nominal) : 0;
  return delta - deviation;
}

/** js and JS: half to either side; IT7 to IT11 of an odd width are taken one micrometre narrower, so that both ends are
 *  whole (ISO 286-1:1988, table 2, note 3). */
function symmetric(width: number, grade: number): Deviations {
  const half = grade >= 7 && grade <= 11 ? Math.floor(width / 2) : width / 2;
  return { lower: -half, upper: half };
}
