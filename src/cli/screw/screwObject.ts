import type { ReadScrew } from '../../job/screw/readScrew.ts';
import { type ClearanceHoles, clearanceHolesFor } from '../../standards/clearanceHoles.ts';
import type { ScrewIdentity, ScrewMatch } from '../../standards/threads/identifyScrew.ts';
import type { Known } from '../../standards/threads/pitchOver.ts';
import type { TellingTest } from '../../standards/threads/tellApart.ts';
import type { Range } from '../../standards/threads/thread.ts';

/** A thread held against the readings; lengths in mm, angle in degrees. */
interface MatchObject {
  readonly designation: string;
  readonly system: string;
  readonly series: string;
  readonly nominal: number;
  readonly pitch: number;
  readonly angle: number;
  /** Outside diameter its standard permits, in the usual class and in any. */
  readonly outside: { readonly usual: Range; readonly any: Range };
  /** How likely it is this one, 0..1; with `none`, all add up to 1. */
  readonly likely: number;
  /** Chance that such a screw reads as far off, 0..1. */
  readonly agreement: number;
  /** Diameter read beyond the permitted range, above 0 larger, 0 within; pitch read less its own, null when not read. */
  readonly diameterOff: number;
  readonly pitchOff: number | null;
  readonly source: string;
}

interface ScrewObject {
  readonly unit: 'mm';
  /** As read, with standard uncertainties; `threads`: how many the pitch was taken over. */
  readonly diameter: Known;
  readonly pitch: (Known & { readonly threads: number }) | null;
  /** Threads that agree, the likeliest first; may be empty. */
  readonly candidates: readonly MatchObject[];
  /** How likely it is none of the known threads, or misread. */
  readonly none: number;
  /** What tells the likeliest from the next ones: `by` is pitch, diameter, angle, tip or nut. */
  readonly tests: readonly TellingTest[];
  /** Threads that do not agree, the nearest first. */
  readonly ruledOut: readonly MatchObject[];
  /** Holes the likeliest passes, mm; null when no thread agrees. */
  readonly clearanceHoles: (ClearanceHoles & { readonly designation: string }) | null;
}

/** What `fettle screw --json` prints:
 *  `{ unit, diameter: { value, u }, pitch: { value, u, threads } | null, candidates: [{ designation, system, series,
 *  nominal, pitch, angle, outside: { usual, any }, likely, agreement, diameterOff, pitchOff, source }], none,
 *  tests: [{ between, by, ... }], ruledOut: [as candidates],
 *  clearanceHoles: { designation, fine, medium, coarse, source } | null }`. Lengths in mm to a tenth of a micrometre.
 *  @example screwObject(read, identifyScrew(read)).candidates[0]?.designation // => 'M5' */
export function screwObject({ diameter, pitch, threads }: ReadScrew, identity: ScrewIdentity): ScrewObject {
  const best = identity.candidates[0]?.thread;
  return rounded({
    unit: 'mm',
    diameter,
    pitch: pitch === undefined ? null : { ...pitch, threads },
    candidates: identity.candidates.map(matchObject),
    none: identity.none,
    tests: identity.tests,
    ruledOut: identity.ruledOut.map(matchObject),
    clearanceHoles:
      best === undefined ? null : { designation: best.designation, ...clearanceHolesFor(best.nominal) },
  });
}

function matchObject({ thread, ...match }: ScrewMatch): MatchObject {
  const { designation, system, series, nominal, pitch, angle, outside, source } = thread;
  return { designation, system, series, nominal, pitch, angle, outside, ...match, source };
}

/** Every number in it to six decimals, so that no rounding noise is printed: likelihoods need more than lengths. */
const rounded = <T>(whole: T): T =>
  JSON.parse(
    JSON.stringify(whole, (_, value) => (typeof value === 'number' ? Number(value.toFixed(6)) : value)),
  );
