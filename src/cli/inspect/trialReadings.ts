import { type Stage, textsRead, withReadings } from '../../job/inspection/recordReadings.ts';
import { type FileTrial, withRecord } from '../../job/trial/withRecord.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { changeJob, type JobStore, type Texts, without } from '../measure/jobStore.ts';
import { blaming } from '../refusedFile.ts';

/** The readings of one print in the job file. Its record is written with the first of them, so that a print nobody read
 *  leaves none. Every change is on the disk, whole, before the call comes back. Throws `RefusedFile` when the file cannot be
 *  read or written, or its record is not the one it was. */
export function trialReadings(
  path: string,
  record: TrialRecord,
  index: number,
  stageOf: (id: string) => Stage,
): JobStore {
  const change = (id: string, work: (texts: Texts) => Texts) =>
    changeRecord(path, record, index, (trial) => {
      const texts = work(textsRead(trial, id, stageOf(id)));
      return withReadings(trial, { [id]: texts }, stageOf);
    });
  return {
    append: (id, text) => change(id, (texts) => [...texts, text]),
    drop: (id, which, text) =>
      change(id, (texts) => without(texts, which, text, { path, field: `trials[${index}]` })),
  };
}

/** Changes one record of the job file, which may not be there yet. */
export const changeRecord = (
  path: string,
  record: TrialRecord,
  index: number,
  change: (record: FileTrial) => FileTrial,
): Promise<void> =>
  changeJob(path, `trials[${index}]`, (job) => blaming(path, () => withRecord(job, record, index, change)));
