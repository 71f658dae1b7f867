import { donorFamily } from '../../job/donorFamily.ts';
import { donorTask } from '../../job/donorTask.ts';
import { refusingRefit } from '../../job/refusingRefit.ts';
import { loadKernel } from '../../solid/kernel.ts';
import type { OpenJob } from '../openedJob.ts';
import { blaming } from '../refusedFile.ts';
import { donorFile } from './donorFile.ts';
import { modelBytes } from './modelBytes.ts';

/** A job that refits a donor, with the family made of it. The model lies beside the job. Throws `RefusedFile`. */
export async function openDonorJob(path: string, { job, sources }: OpenJob): Promise<OpenJob> {
  const file = donorFile(path, job);
  const bytes = await modelBytes(path, file, 'donor.file');
  const kernel = await loadKernel();
  const family = blaming(path, () =>
    refusingRefit(() => donorFamily(kernel, donorTask(job.donor!, bytes, job))),
  );
  return { job, family, sources: [...sources, file] };
}
