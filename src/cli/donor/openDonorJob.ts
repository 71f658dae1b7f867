import { donorFamily } from '../../job/donorFamily.ts';
import { donorTask } from '../../job/donorTask.ts';
import { Refused } from '../../job/problem.ts';
import { loadKernel } from '../../solid/kernel.ts';
import { besideJob, type OpenJob } from '../openJob.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import { A_MODEL, modelBytes } from './modelBytes.ts';

/** A job that refits a donor, with the family made of it. The model lies beside the job. Throws `RefusedFile`. */
export async function openDonorJob(path: string, { job, sources }: OpenJob): Promise<OpenJob> {
  const { donor } = job;
  if (donor === undefined) {
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
  const file = besideJob(
    path,
    donor.file,
    'donor.file',
    `${A_MODEL} beside the job, or in a folder below it`,
  );
  const bytes = await modelBytes(path, file, 'donor.file');
  const kernel = await loadKernel();
  const family = blaming(path, () => refusing(() => donorFamily(kernel, donorTask(donor, bytes, job))));
  return { job, family, sources: [...sources, file] };
}

/** What a donor cannot do as a problem of the changes. */
export function refusing<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof Refused || !(error instanceof RangeError)) throw error;
    throw new Refused([
      {
        code: 'change_undecided',
        field: 'donor.changes',
        value: error.message,
        allowed: 'a change with take: its number, or another change',
      },
    ]);
  }
}
