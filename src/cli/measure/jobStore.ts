import type { JobFile } from '../../job/schema.ts';
import { changedJob, writeAfresh } from '../placedFiles.ts';
import { RefusedFile } from '../refusedFile.ts';

/** The readings in a file. Every change is on the disk, whole, before the call comes back. */
export interface JobStore {
  /** Adds one reading as typed. */
  append(reading: string, text: string): Promise<void>;
  /** Takes the reading at `index`, from 0, away, which was typed as `text`. */
  drop(reading: string, index: number, text: string): Promise<void>;
}

/** Readings of one thing, as they stand in a file. */
export type Texts = readonly (string | number)[];

/** Changes a job file; what the change does is on the disk, whole, before the call comes back. It is made to the file as it
 *  is at that moment, so what somebody else wrote into it meanwhile stays; and the file is read as it is, so nothing is filled
 *  in. `field` is blamed. Throws `RefusedFile` when it cannot be read or written. */
export const changeJob = (path: string, field: string, change: (job: JobFile) => JobFile): Promise<void> =>
  writeAfresh(path, async () => [await changedJob(path, change, { field, meanwhile: 'stays' })]);

/** The store of the readings of the machine in one job file. Throws `RefusedFile` as `changeJob` does. */
export function jobStore(path: string): JobStore {
  const change = (reading: string, work: (texts: Texts) => Texts) =>
    changeJob(path, `readings.${reading}`, (job) => {
      const texts = work(job.readings?.[reading] ?? []);
      return { ...job, readings: { ...job.readings, [reading]: [...texts] } };
    });
  return {
    append: (reading, text) => change(reading, (texts) => [...texts, text]),
    drop: (reading, index, text) =>
      change(reading, (texts) => without(texts, index, text, { path, field: `readings.${reading}` })),
  };
}

/** The readings without the one at `index`, which is `text`; where others have come in between it may have another place.
 *  Throws `RefusedFile` where it is not there any more. */
export function without(
  texts: Texts,
  index: number,
  text: string,
  { path, field }: { readonly path: string; readonly field: string },
): Texts {
  const typed = texts.map(String);
  const at = typed[index] === text ? index : typed.lastIndexOf(text);
  if (at !== -1) return texts.filter((_, k) => k !== at);
  const allowed = 'a reading that is there still; somebody else has written there';
  throw new RefusedFile(path, [
    { code: 'reading_gone', field, value: JSON.stringify(text), allowed, reason: 'is no longer there' },
  ]);
}
