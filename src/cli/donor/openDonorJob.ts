import { donorFamily } from '../../job/donorFamily.ts';
import { donorTask } from '../../job/donorTask.ts';
import { Refused } from '../../job/problem.ts';
import { loadKernel } from '../../solid/kernel.ts';
import type { OpenJob } from '../openJob.ts';
import { blaming } from '../refusedFile.ts';
import { donorFile } from './donorFile.ts';
import { modelBytes } from './modelBytes.ts';

/** A job that refits a donor, with the family made of it. The model lies beside the job. Throws `RefusedFile`. */
export async function openDonorJob(path: string, { job, sources }: OpenJob): Promise<OpenJob> {
  const file = donorFile(path, job);
  const bytes = await modelBytes(path, file, 'donor.file');
  const kernel = await loadKernel();
  const family = blaming(path, () => refusing(() => donorFamily(kernel, donorTask(job.donor!, bytes, job))));
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
