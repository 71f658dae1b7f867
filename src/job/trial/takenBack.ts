import { day } from '../../output/words/index.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import type { Prepared } from '../prepare.ts';
import { type Problem, Refused } from '../problem.ts';
import { profileHash } from '../profileHash.ts';
import type { JobFile } from '../schema.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { withRecord } from './withRecord.ts';

/** What was said of the last print of a job, taken back. */
export interface TakenBack {
  readonly last: TrialRecord;
  /** Its place among the records, from 0. */
  readonly index: number;
  /** The record that stays, with what callipers read of the print; undefined where nothing stays. */
  readonly left: TrialRecord | undefined;
  /** The printer's profile as it was before it learnt from that print; undefined where it had not. */
  readonly printer: PrinterProfile | undefined;
}

/** Takes back what was said of the last print, and what the printer's profile learnt from it; what callipers read of it stays.
 *  Only while nothing rests on it: the profile is as that print left it, and no ladder has been drawn since. Throws
 *  `Refused` with what stands in the way; `field` is blamed. */
export function takenBack({ job, printer }: Pick<Prepared, 'job' | 'printer'>, field: string): TakenBack {
  const trials = (job.trials ?? []) as readonly TrialRecord[];
  const last = trials.at(-1);
  const problem = hindrance(last, printer, job.ladders ?? {}, field);
  if (last === undefined || problem !== undefined) throw new Refused([problem!]);
  return {
    ...{ last, index: trials.length - 1, left: unsaid(last) },
    printer: last.learnt?.before,
  };
}

/** The job file with it taken back; the profile goes into it as well where the job holds its own. Throws `Refused` where
 *  another record stands in its place. */
export function withTakenBack(
  job: JobFile,
  { last, index, left, printer }: TakenBack,
  holdsProfile: boolean,
): JobFile {
  const changed = withRecord(job, last, index, (record) => unsaid(record) ?? record);
  const kept = left === undefined ? changed.trials?.slice(0, index) : changed.trials;
  const { trials: _, ...rest } = changed;
  return {
    ...rest,
    ...(printer && holdsProfile && { printer }),
    ...(kept !== undefined && kept.length > 0 && { trials: kept }),
  } as JobFile;
}

/** What stands in the way. */
function hindrance(
  last: TrialRecord | undefined,
  printer: PrinterProfile,
  ladders: Readonly<Record<string, { readonly date: string }>>,
  field: string,
): Problem | undefined {
  const refuse = (code: string, value: string, allowed: string, reason: string): Problem => ({
    ...{ code, field, value, allowed, reason },
  });
  if (last?.felt === undefined)
    return refuse(
      'nothing_to_undo',
      last === undefined ? 'no print on record' : `print of ${day(last.date)}`,
      'a print of which something was said; readings are taken back with "drop" while they are taken',
      last === undefined ? 'leaves nothing to take back' : 'has not been tried yet',
    );
  if (last.learnt !== undefined && last.learnt.after !== profileHash(printer))
    return refuse(
      'trial_rested_on',
      printer.name,
      'another record: say how the next print feels, and it outweighs this one',
      'has changed since it learnt from that print',
    );
  const [group] = Object.entries(ladders).find(([, ladder]) => ladder.date > last.date) ?? [];
  if (group !== undefined)
    return refuse(
      'trial_rested_on',
      `ladder of ${group}`,
      'another record: say how the next print feels, and it outweighs this one',
      'was drawn since and rests on that print',
    );
  return undefined;
}

/** A record without what was said; undefined where nothing is left. */
function unsaid<R extends Pick<TrialRecord, 'inspected' | 'reworked'> & object>(record: R): R | undefined {
  if (record.inspected === undefined) return undefined;
  const { felt: _, broken: __, note: ___, learnt: ____, ...left } = record as R & TrialRecord;
  const after = Object.keys(record.inspected.after ?? {});
  const { reworked: _____, ...plain } = left;
  // What was read after a file stays with the mark that it was filed.
  return (after.length > 0 ? { ...plain, reworked: after } : plain) as unknown as R;
}
