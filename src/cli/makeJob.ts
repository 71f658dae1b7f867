import type { Family } from '../family/family.ts';
import type { MadeJob } from '../job/madeJob.ts';
import { make } from '../job/make.ts';
import { refusingRefit } from '../job/refusingRefit.ts';
import { Remembered } from '../remembered/remembered.ts';
import { loadKernel } from '../solid/kernel.ts';
import { openPrepared } from './openJob.ts';
import { blaming } from './refusedFile.ts';

/** Reads a job and runs it through the pipeline, with what is known of others like it. Without, it is remembered until the process
 *  ends, which is soon. Throws `RefusedFile`. */
export async function makeJob(
  path: string,
  families: readonly Family[],
  known: Remembered = new Remembered(),
): Promise<MadeJob & { readonly sources: readonly string[] }> {
  const { prepared, sources } = await openPrepared(path, families);
  const kernel = await loadKernel();
  const work = () => make(kernel, prepared, known);
  if (prepared.family.model === undefined)
    return { kernel, prepared, result: blaming(path, work), sources, known };
  return { kernel, prepared, result: blaming(path, () => refusingRefit(work)), sources, known };
}
