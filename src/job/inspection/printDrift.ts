import type { Dimension } from '../../measure/types.ts';
import { predictedSize } from '../../printer/behaviour.ts';
import { knownOf } from '../../printer/parameters.ts';
import { PARAMETERS, type Parameter } from '../../printer/types.ts';
import { measurandOf } from '../clearanceCauses.ts';
import type { TrialRecord } from '../trialSchema.ts';
import type { Meeting } from './meetings.ts';

/** How far one size of a print came out from what was expected of it. */
export interface Deviation {
  /** Print less expectation, mm. */
  readonly value: number;
  /** Standard uncertainty of that: the printer's profile, scatter from print to print, the reading of the print. */
  readonly u: number;
  /** In standard uncertainties. */
  readonly z: number;
}

/** One thing that explains several deviations at once. */
export interface Drift {
  /** A number of the printer's profile, or what the callipers show with their jaws closed. */
  readonly parameter: Parameter | 'zero';
  /** What the profile says, and what these readings say instead; `zero` against 0 mm. */
  readonly was: number;
  readonly now: number;
  readonly u: number;
  /** Interfaces most of whose deviation it explains, ids as in the result. */
  readonly explains: readonly string[];
}

/** Deviations of the sizes of a print, by interface. */
export function deviationsOf(
  record: Pick<TrialRecord, 'sizes'>,
  sizes: Readonly<Record<string, Dimension>>,
): Readonly<Record<string, Deviation>> {
  return Object.fromEntries(
    Object.entries(sizes).flatMap(([id, size]) => {
      const then = record.sizes[id];
      if (then === undefined) return [];
      const value = size.value - then.predicted;
      const u = Math.hypot(then.doubt.printer, then.doubt.spread, size.u);
      return [[id, { value, u, z: value / u }]];
    }),
  );
}

/** How seldom honest scatter may pass for drift, and the chi-square value of one degree of freedom that goes with it
 *  (NIST/SEMATECH e-Handbook, table 1.3.6.7.4, 1 %). */
const DRIFT = { significance: 0.01, chiSquare: 6.635 } as const;

/** A calliper wiped and closed shows zero to about this, mm; common practice, no source. */
const ZERO_DOUBT = 0.01;

/** A cause explains a size when it takes at least this off the square of its deviation, in standard uncertainties: as much as
 *  chance would take off in about one size of six. Common practice, no source. */
const TELLING = 2;

/** The one parameter that best explains how a print came out, when it explains at least two sizes and scatter hardly would:
 *  weighted least squares with that parameter alone, a shift counting against its own doubt (a profile that is sure of a
 *  number is not overruled lightly). Undefined where the deviations are what such prints scatter by, and where only one
 *  size is off, which may as well be a slip of the callipers. */
export function driftOf(
  meetings: readonly Meeting[],
  record: Pick<TrialRecord, 'sizes'>,
  sizes: Readonly<Record<string, Dimension>>,
): Drift | undefined {
  const read = meetings.flatMap((meeting) => {
    const [size, then] = [sizes[meeting.id], record.sizes[meeting.id]];
    if (size === undefined || then === undefined) return [];
    const value = size.value - then.predicted;
    // What a jaw does to all sizes alike is no scatter, but there is no telling it from the printer.
    const weight = 1 / (then.doubt.spread ** 2 + size.u ** 2);
    return [{ id: meeting.id, value, weight, effects: effectsOn(meeting, then.drawn) }];
  });
  const [first] = read;
  const profile = meetings[0]?.part.prepared.printer;
  if (first === undefined || profile === undefined) return undefined;

  const candidates = [...PARAMETERS, 'zero' as const].flatMap((parameter) => {
    const { value: was, u: doubt } =
      parameter === 'zero' ? { value: 0, u: ZERO_DOUBT } : knownOf(profile, parameter);
    const effect = ({ effects }: (typeof read)[number]) => effects[parameter] ?? 0;
    const information = read.reduce((sum, one) => sum + one.weight * effect(one) ** 2, 0);
    if (!(information > 0) || !(doubt > 0)) return [];
    const pull = read.reduce((sum, one) => sum + one.weight * effect(one) * one.value, 0);
    const precision = information + 1 / doubt ** 2;
    const shift = pull / information;
    // What it takes off the sum of squares, the distance from the profile counted with the profile's own doubt.
    const gain = pull ** 2 / precision;
    const explains = read
      .filter((one) => one.weight * (one.value ** 2 - (one.value - effect(one) * shift) ** 2) > TELLING)
      .map(({ id }) => id);
    const drift: Drift = { parameter, was, now: was + shift, u: Math.sqrt(1 / information), explains };
    return [{ gain, drift }];
  });
  const [best] = candidates
    .filter(({ gain, drift }) => gain > DRIFT.chiSquare && drift.explains.length >= 2)
    .sort((a, b) => b.gain - a.gain);
  return best?.drift;
}

/** Change of a printed size per unit of each parameter, and of what closed callipers show. */
function effectsOn({ one, part, planned }: Meeting, drawn: number): Readonly<Record<string, number>> {
  const { printer } = part.prepared;
  const measurand = measurandOf(one, planned.lay, printer, planned.heights);
  const { sensitivity } = predictedSize(drawn, measurand, printer);
  return {
    zero: 1,
    ...Object.fromEntries(
      Object.entries(sensitivity).map(([cause, effect]) => [cause.replace(/^printer:/, ''), effect]),
    ),
  };
}
