import writeFileAtomic from 'write-file-atomic';
import { jobText } from '../../job/jobText.ts';
import type { JobFile } from '../../job/schema.ts';
import { readJson } from '../openJob.ts';
import { RefusedFile } from '../refusedFile.ts';
import { systemProblem } from '../systemProblem.ts';

/** The readings in a job file. Every change is on the disk, whole, before the call comes back. */
export interface JobStore {
  /** Adds one reading as typed. */
  append(reading: string, text: string): Promise<void>;
  /** Takes the reading at `index`, from 0, away. */
  drop(reading: string, index: number): Promise<void>;
}

/** Changes a job file; what the change does is on the disk, whole, before the call comes back. The file is read afresh, so
 *  what somebody else wrote into it meanwhile stays; and it is read as it is, so nothing is filled in. `field` is blamed.
 *  Throws `RefusedFile` when it cannot be read or written. */
export async function changeJob(
  path: string,
  field: string,
  change: (job: JobFile) => JobFile,
): Promise<void> {
  const job = (await readJson(path, path, '', 'a job file')) as JobFile;
  const changed = change(job);
  try {
    await writeFileAtomic(path, jobText(changed));
  } catch (error) {
    throw new RefusedFile(path, [systemProblem(error, field, 'a file that can be written to')]);
  }
}

/** The store of the readings of the machine in one job file. Throws `RefusedFile` as `changeJob` does. */
export function jobStore(path: string): JobStore {
  const change = (reading: string, work: (texts: (string | number)[]) => void) =>
    changeJob(path, `readings.${reading}`, (job) => {
      const texts = [...(job.readings?.[reading] ?? [])];
      work(texts);
      return { ...job, readings: { ...job.readings, [reading]: texts } };
    });
  return {
    append: (reading, text) => change(reading, (texts) => texts.push(text)),
    drop: (reading, index) => change(reading, (texts) => texts.splice(index, 1)),
  };
}
