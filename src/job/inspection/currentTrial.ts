import { jobHash } from '../jobHash.ts';
import type { Prepared } from '../prepare.ts';
import { openTrial } from '../trial/openTrial.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { meetingsOf } from './meetings.ts';

/** The record that what is said of a print goes into. */
export interface CurrentTrial {
  readonly record: TrialRecord;
  /** Its place among the records of the job, from 0; the next free one where it is new. */
  readonly index: number;
  /** It is not in the job yet. */
  readonly isNew: boolean;
  /** There is an open record of a print that was drawn otherwise: the job has changed since, so this is another print. */
  readonly changed: boolean;
}

/** What a person says of which print is meant. `again`: another print than the last. `last`: the last one, though it was
 *  felt or the job has changed since. */
export interface WhichPrint {
  readonly again?: boolean | undefined;
  readonly last?: boolean | undefined;
}

/** Sizes that differ by less are drawn alike, mm: readings of the machine taken again move them by as much. */
const SAME = 0.005;

/** The record of the print on the bench: the last one of the job, until it has been felt; a new one where there is none,
 *  where the last was felt, and where the job would have drawn the last print otherwise. That the last record itself moves
 *  what is drawn next does not count. Throws `Refused` as `plan` does. */
export function currentTrial(prepared: Prepared, date: string, which: WhichPrint = {}): CurrentTrial {
  const trials = prepared.job.trials ?? [];
  const last = trials.at(-1) as TrialRecord | undefined;
  const fresh = (changed: boolean): CurrentTrial => ({
    record: openTrial(prepared, date, jobHash(prepared.job, prepared.family.model)),
    index: trials.length,
    isNew: true,
    changed,
  });
  if (last === undefined || which.again === true) return fresh(false);
  const goesOn = { record: last, index: trials.length - 1, isNew: false, changed: false };
  if (which.last === true) return goesOn;
  if (last.felt !== undefined) return fresh(false);
  return isDrawnAlike(prepared, last) ? goesOn : fresh(true);
}

/** Number of the print that lies on the bench, from 1: the last on record, until somebody said how it felt or the job would
 *  have drawn it otherwise. Null for none. Throws `Refused` as `plan` does. */
export function printOnBench(prepared: Prepared): number | null {
  const trials = prepared.job.trials ?? [];
  const last = trials.at(-1) as TrialRecord | undefined;
  return last !== undefined && last.felt === undefined && isDrawnAlike(prepared, last) ? trials.length : null;
}

/** The job as it was before its last print. */
const withoutLast = (prepared: Prepared): Prepared => ({
  ...prepared,
  job: { ...prepared.job, trials: prepared.job.trials?.slice(0, -1) },
});

/** Whether the job would draw the last print on record as it was drawn. */
function isDrawnAlike(now: Prepared, record: TrialRecord): boolean {
  const prepared = withoutLast(now);
  const { printer, material } = prepared;
  const meetings = meetingsOf(prepared);
  return (
    record.printer === printer.name &&
    record.material === material.name &&
    Math.abs(record.layer - printer.layer) < 1e-9 &&
    meetings.length === Object.keys(record.sizes).length &&
    meetings.every(({ id, one }) => Math.abs((record.sizes[id]?.drawn ?? NaN) - one.drawn) < SAME)
  );
}
