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

/** The store of one job file. The file is read afresh for every change, so what somebody else wrote into it meanwhile
 *  stays; and it is read as it is, so nothing is filled in. Throws `RefusedFile` when it cannot be read or written. */
export function jobStore(path: string): JobStore {
  const change = async (reading: string, change: (texts: (string | number)[]) => void) => {
    const job = (await readJson(path, path, '', 'a job file')) as JobFile;
    const texts = [...(job.readings?.[reading] ?? [])];
    change(texts);
    const changed = { ...job, readings: { ...job.readings, [reading]: texts } };
    try {
      await writeFileAtomic(path, jobText(changed));
    } catch (error) {
      throw new RefusedFile(path, [
        systemProblem(error, `readings.${reading}`, 'a file that can be written to'),
      ]);
    }
  };
  return {
    append: (reading, text) => change(reading, (texts) => texts.push(text)),
    drop: (reading, index) => change(reading, (texts) => texts.splice(index, 1)),
  };
}
