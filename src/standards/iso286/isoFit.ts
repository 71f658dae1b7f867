import { TableRefusal } from '../tableRefusal.ts';
import { type Deviations, holeLimits, shaftLimits } from './limits.ts';
import { type DeviationLetter, deviationLetters } from './shaftDeviation.ts';

/** Hole, stroke, shaft: H8/f7. What the letters and grades may be is for `isoFit` to say. */
export const isoFitPattern = /^([A-Z]{1,2})(\d{1,2})\/([a-z]{1,2})(\d{1,2})$/;

/** A fit code at one nominal size. Lengths in mm. */
export interface IsoFit {
  /** Limits of the size of the hole and of the shaft. */
  readonly hole: { readonly lo: number; readonly hi: number };
  readonly shaft: { readonly lo: number; readonly hi: number };
  /** Least and greatest clearance, hole minus shaft; below 0 is interference. */
  readonly clearance: { readonly lo: number; readonly hi: number };
}

const holeLetters = deviationLetters.map((letter) => letter.toUpperCase());

/** What may be written, as the end of the sentence "allowed: ...". */
const ALLOWED = `a hole and a shaft of ISO 286 such as H8/f7, holes ${holeLetters.join(' ')}, shafts ${deviationLetters.join(' ')}, grades 1 to 18`;

/** Limits of hole and shaft of an ISO 286-1 fit such as H8/f7, and the clearance between them, mm. `nominal` in mm, above
 *  0, at most 500. Capital letters for the hole, which comes first. ISO 286-1:2010, tables 1 to 5.
 *  Throws `TableRefusal`: `fit_code_unclear`, `deviation_unknown`, `grade_unknown`, `size_outside_table`.
 *  @example isoFit('H8/f7', 25).clearance // => { lo: 0.02, hi: 0.074 } */
export function isoFit(code: string, nominal: number): IsoFit {
  const parts = isoFitPattern.exec(code);
  if (parts === null) throw new TableRefusal('fit_code_unclear', 'fit', code, ALLOWED);
  const hole = holeLimits(letterOf(parts[1]!.toLowerCase(), code), Number(parts[2]), nominal);
  const shaft = shaftLimits(letterOf(parts[3]!, code), Number(parts[4]), nominal);
  return {
    hole: sizes(nominal, hole),
    shaft: sizes(nominal, shaft),
    clearance: { lo: (hole.lower - shaft.upper) / 1000, hi: (hole.upper - shaft.lower) / 1000 },
  };
}

function letterOf(letter: string, code: string): DeviationLetter {
  const known = deviationLetters.find((each) => each === letter);
  if (known === undefined) throw new TableRefusal('deviation_unknown', 'fit', code, ALLOWED);
  return known;
}

const sizes = (nominal: number, { lower, upper }: Deviations): { lo: number; hi: number } => ({
  lo: nominal + lower / 1000,
  hi: nominal + upper / 1000,
});
