import type { JobFile } from '../../job/schema.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { changeJob, type JobStore } from '../measure/jobStore.ts';
import { RefusedFile } from '../refusedFile.ts';

type Texts = (string | number)[];
type FileTrials = NonNullable<JobFile['trials']>;

/** Which readings of a print are meant: before or after it was filed or drilled. */
export type Stage = 'readings' | 'after';

/** The readings of one print in the job file. Its record is written with the first of them, so that a print nobody read
 *  leaves none. Every change is on the disk, whole, before the call comes back. Throws `RefusedFile` when the file cannot be
 *  read or written, or its record is not the one it was. */
export function trialReadings(
  path: string,
  record: TrialRecord,
  index: number,
  stageOf: (id: string) => Stage,
): JobStore {
  const change = (id: string, work: (texts: Texts) => void) =>
    changeRecord(path, record, index, (trial) => {
      const inspected = trial.inspected ?? { readings: {} };
      const stage = stageOf(id);
      const texts: Texts = [...(inspected[stage]?.[id] ?? [])];
      work(texts);
      const reworked = stage === 'after' ? { reworked: [...new Set([...(trial.reworked ?? []), id])] } : {};
      return {
        ...trial,
        ...reworked,
        inspected: { ...inspected, [stage]: { ...inspected[stage], [id]: texts } },
      };
    });
  return {
    append: (id, text) => change(id, (texts) => texts.push(text)),
    drop: (id, which) => change(id, (texts) => texts.splice(which, 1)),
  };
}

/** Changes one record of the job file, which may not be there yet. */
export const changeRecord = (
  path: string,
  record: TrialRecord,
  index: number,
  change: (record: FileTrials[number]) => FileTrials[number],
): Promise<void> =>
  changeJob(path, `trials[${index}]`, (job) => withRecord(path, job, record, index, change));

/** The job with one of its records changed. Throws `RefusedFile` where another stands in its place. */
export function withRecord(
  path: string,
  job: JobFile,
  record: TrialRecord,
  index: number,
  change: (record: FileTrials[number]) => FileTrials[number],
): JobFile {
  const trials = [...(job.trials ?? [])];
  const there = trials[index];
  const other = there === undefined ? trials.length !== index : there.made !== record.made;
  if (other)
    throw new RefusedFile(path, [
      {
        code: 'trial_changed',
        field: `trials[${index}]`,
        value: there === undefined ? `${trials.length} prints on record` : `made from ${there.made}`,
        allowed: 'the records as they were when this began',
        reason: 'somebody else has written there meanwhile',
      },
    ]);
  trials[index] = change(there ?? (record as FileTrials[number]));
  return { ...job, trials };
}
