import type { Job } from '../../job/schema.ts';
import { besideJob } from '../besideJob.ts';
import { RefusedFile } from '../refusedFile.ts';
import { A_MODEL } from './modelBytes.ts';

/** Path of the model that a job refits. Throws `RefusedFile` where the job names none, or one that does not lie with it. */
export function donorFile(path: string, { donor }: Pick<Job, 'donor'>): string {
  if (donor !== undefined) {
    return besideJob(path, donor.file, 'donor.file', `${A_MODEL} beside the job, or in a folder below it`);
  }
  throw new RefusedFile(path, [
    {
      code: 'donor_missing',
      field: 'donor',
      value: '',
      allowed: 'the file of a model, and what to change',
      reason: 'is missing',
    },
  ]);
}
