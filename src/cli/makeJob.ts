import type { Family } from '../family/family.ts';
import { make } from '../job/make.ts';
import { refusingRefit } from '../job/refusingRefit.ts';
import type { MadeJob } from '../job/takeAway.ts';
import { loadKernel } from '../solid/kernel.ts';
import { openPrepared } from './openJob.ts';
import { blaming } from './refusedFile.ts';

/** Reads a job and runs it through the pipeline. Throws `RefusedFile`. */
export async function makeJob(
  path: string,
  families: readonly Family[],
): Promise<MadeJob & { readonly sources: readonly string[] }> {
  const { prepared, sources } = await openPrepared(path, families);
  const kernel = await loadKernel();
  const work = () => make(kernel, prepared);
  if (prepared.family.model === undefined) return { kernel, prepared, result: blaming(path, work), sources };
  return { kernel, prepared, result: blaming(path, () => refusingRefit(work)), sources };
}
