import type { Family } from '../family/family.ts';
import { make } from '../job/make.ts';
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
  return { kernel, prepared, result: blaming(path, () => make(kernel, prepared)), sources };
}
