import { stageOf, takenIn, textsRead, withReadings } from '../../../src/job/inspection/recordReadings.ts';
import { Refused } from '../../../src/job/problem.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { type FileTrial, withRecord } from '../../../src/job/trial/withRecord.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';

/** A print of a job: its record, as it is or would be opened, and its place among them from 0. */
export interface PrintPlace {
  readonly record: TrialRecord;
  readonly index: number;
}

/** The record of a print as the job has it; as it would be opened where it is not there yet. */
export function recordIn(job: JobFile, { record, index }: PrintPlace): TrialRecord {
  const there = job.trials?.[index] as TrialRecord | undefined;
  return there?.made === record.made ? there : record;
}

/** Readings of a print in a job, as typed: those after it was filed where it was. */
export function printTexts(job: JobFile, print: PrintPlace, id: string): readonly (string | number)[] {
  const record = recordIn(job, print);
  return textsRead(record, id, stageOf(record, id));
}

/** The job with other readings of a print. Its record comes with the first of them and goes with the last, if nothing else is
 *  in it. The job as it is where another record stands in that place. */
export const withPrintTexts = (
  job: JobFile,
  print: PrintPlace,
  id: string,
  texts: readonly (string | number)[],
): JobFile => changedPrint(job, print, (record) => bare(withReadings(record, { [id]: texts })));

/** The job with the readings of a print that a file has: those that go on from what is there, or say it again, stand once.
 *  The job as it is where another record stands in that place. */
export const withFiledTexts = (
  job: JobFile,
  print: PrintPlace,
  told: Readonly<Record<string, readonly (string | number)[]>>,
): JobFile =>
  changedPrint(job, print, (record) => {
    const texts = Object.entries(told).map(([id, all]) => [
      id,
      takenIn(textsRead(record, id, stageOf(record, id)), all),
    ]);
    return bare(withReadings(record, Object.fromEntries(texts)));
  });

/** The job with a change to a record of it; a record that is left with nothing said or read goes. The job as it is where
 *  another record stands in that place. */
export function changedPrint(
  job: JobFile,
  { record, index }: PrintPlace,
  change: (record: FileTrial) => FileTrial,
): JobFile {
  let changed: JobFile;
  try {
    changed = withRecord(job, record, index, change);
  } catch (error) {
    if (error instanceof Refused) return job;
    throw error;
  }
  const last = changed.trials?.at(-1);
  if (last === undefined || index !== changed.trials!.length - 1 || !isBlank(last)) return changed;
  const { trials = [], ...rest } = changed;
  return trials.length > 1 ? { ...rest, trials: trials.slice(0, -1) } : rest;
}

/** Without lists that hold nothing. */
function bare(record: FileTrial): FileTrial {
  const { inspected, ...rest } = record;
  if (inspected === undefined) return record;
  const { after, ...own } = inspected;
  const kept = filled(after ?? {});
  return {
    ...rest,
    inspected: {
      ...own,
      readings: filled(inspected.readings),
      ...(Object.keys(kept).length > 0 && { after: kept }),
    },
  };
}

const filled = <T extends readonly unknown[]>(texts: Readonly<Record<string, T>>): Record<string, T> =>
  Object.fromEntries(Object.entries(texts).filter(([, all]) => all.length > 0));

const isBlank = ({ inspected, felt, reworked, broken, note, learnt }: FileTrial): boolean =>
  Object.keys(inspected?.readings ?? {}).length === 0 &&
  Object.keys(inspected?.after ?? {}).length === 0 &&
  inspected?.callipers === undefined &&
  [felt, reworked, broken, note, learnt].every((one) => one === undefined);
