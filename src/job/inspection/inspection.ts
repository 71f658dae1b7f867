import type { InterfaceKind } from '../../family/interface.ts';
import type { Dimension } from '../../measure/types.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { type Decision, decide } from './decision.ts';
import { meetingsOf } from './meetings.ts';
import { type PrintClearance, printClearances } from './printClearance.ts';
import { type Deviation, type Drift, deviationsOf, driftOf } from './printDrift.ts';
import { printReadings } from './printReading.ts';
import { printSizes } from './printSize.ts';
import { type NoRework, type Rework, reworkOf } from './rework.ts';

/** `close`: inside its window as read, but with less than 95 % chance. */
export type InspectionVerdict = 'pass' | 'close' | 'rework' | 'reprint';

/** Why a size of a print is off, or that it is not.
 *  `as-expected`: what such prints scatter by. `scatter`: more than usual, but it happens. `drift`: what explains several sizes
 *  explains this one. `reading`: one reading of the print stands apart, or they scatter more than a hand does. `alone`: far
 *  off while nothing else is: a reading, a string, a blob. `machine`: the print is as drawn and the machine's size, or the fit
 *  asked for, is another than when it was drawn. */
export type InspectionCause = 'as-expected' | 'scatter' | 'drift' | 'reading' | 'alone' | 'machine';

/** One size of a print, judged. Lengths in mm. */
export interface InspectedSize {
  readonly id: string;
  readonly name: string;
  readonly kind: InterfaceKind;
  /** What callipers say of the print; after it was filed or drilled where that was read. */
  readonly print: Dimension;
  /** Size expected off the printer when it was drawn. */
  readonly expected: number;
  readonly deviation: Deviation;
  readonly machine: number;
  readonly clearance: PrintClearance;
  readonly window: readonly [number, number];
  readonly decision: Decision;
  readonly verdict: InspectionVerdict;
  /** What takes plastic off until it fits; for `rework`. */
  readonly rework?: Rework;
  /** Why there is no such thing; for `reprint`. */
  readonly noRework?: NoRework;
  readonly cause: InspectionCause;
  /** It was filed or drilled and has not been read since. */
  readonly stale: boolean;
}

/** The verdict on a print, by what callipers read of it. */
export interface Inspection {
  readonly sizes: readonly InspectedSize[];
  /** Interfaces nobody has read, ids as in the result, with their names. */
  readonly unread: readonly { readonly id: string; readonly name: string }[];
  /** What explains several sizes at once. */
  readonly drift: Drift | undefined;
  /** The gravest of the sizes that were read; undefined where none was. */
  readonly verdict: InspectionVerdict | undefined;
}

/** Deviations beyond these many standard uncertainties are more than usual, and hardly scatter: about 5 % and 0.3 % of normal
 *  errors. Common practice (control charts warn and act at 2 and 3), ISO 7870-2 (from memory). */
const UNUSUAL = 2;
const HARDLY = 3;

/** The machine's size, or the fit, has changed when the job would draw a size otherwise by more than this share of its
 *  window, which counts as so wide at most, mm. Common practice, no source. */
const CHANGED = 0.25;
const WIDE = 0.4;

/** Judges a print of which callipers have read some sizes; pure. Throws `Refused` as `plan` does. */
export function inspect(prepared: Prepared, record: TrialRecord): Inspection {
  const meetings = meetingsOf(before(prepared, record));
  const readings = printReadings(meetings, record);
  const texts = record.inspected?.readings ?? {};
  const first = printSizes(prepared, record, readings, texts);
  const after = printSizes(prepared, record, readings, record.inspected?.after ?? {});
  const now = { ...first, ...after };
  const clearances = printClearances(meetings, now);
  // What the printer did shows in what was read before any file.
  const deviations = deviationsOf(record, first);
  const drift = driftOf(meetings, record, first);
  const reworked = new Set(record.reworked ?? []);

  const sizes = meetings.flatMap((meeting): InspectedSize[] => {
    const { id, name, one } = meeting;
    const [print, clearance, then] = [now[id], clearances[id], record.sizes[id]];
    if (print === undefined || clearance === undefined || then === undefined) return [];
    const window = [one.window.lo, one.window.hi] as const;
    const decision = decide(clearance, window);
    const off = decision === 'below' || decision === 'above';
    const rework = off ? reworkOf(meeting, clearance.value, prepared.printer.lineWidth) : undefined;
    const deviation = deviations[id] ?? { value: 0, u: print.u, z: 0 };
    const verdict =
      typeof rework === 'object'
        ? 'rework'
        : typeof rework === 'string'
          ? 'reprint'
          : (decision as 'pass' | 'close');
    const width = window[1] - window[0];
    const moved = Math.abs(one.drawn - then.drawn) > CHANGED * Math.min(width, WIDE);
    return [
      {
        ...{ id, name, kind: one.kind, print, expected: then.predicted, deviation },
        ...{ machine: one.host, clearance, window, decision, verdict },
        ...(typeof rework === 'object' && { rework }),
        ...(typeof rework === 'string' && { noRework: rework }),
        cause: causeOf(print, deviation, drift?.explains.includes(id) === true, moved, verdict),
        stale: reworked.has(id) && after[id] === undefined,
      },
    ];
  });
  const GRAVITY = ['reprint', 'rework', 'close', 'pass'] as const;
  return {
    sizes,
    unread: meetings.filter(({ id }) => now[id] === undefined).map(({ id, name }) => ({ id, name })),
    drift,
    verdict: GRAVITY.find((each) => sizes.some(({ verdict }) => verdict === each)),
  };
}

/** The job as it was when this print was drawn, as far as its trials go. */
function before(prepared: Prepared, { date, made }: TrialRecord): Prepared {
  const { trials } = prepared.job;
  const place = trials?.findIndex((one) => one.date === date && one.made === made) ?? -1;
  return place < 0 ? prepared : { ...prepared, job: { ...prepared.job, trials: trials?.slice(0, place) } };
}

function causeOf(
  print: Dimension,
  { z }: Deviation,
  drifted: boolean,
  moved: boolean,
  verdict: InspectionVerdict,
): InspectionCause {
  if (print.remarks.length > 0) return 'reading';
  if (drifted) return 'drift';
  if (Math.abs(z) > HARDLY) return 'alone';
  if (moved && verdict !== 'pass' && Math.abs(z) <= UNUSUAL) return 'machine';
  return Math.abs(z) > UNUSUAL ? 'scatter' : 'as-expected';
}
