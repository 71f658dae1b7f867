import type { Family } from '../family/family.ts';
import { make } from '../job/make.ts';
import type { MakeResult } from '../job/result.ts';
import { loadKernel } from '../solid/kernel.ts';
import { openPrepared } from './openJob.ts';
import { blaming } from './refusedFile.ts';

/** Reads a job and runs it through the pipeline. Throws `RefusedFile`. */
export async function makeJob(
  path: string,
  families: readonly Family[],
): Promise<{ readonly result: MakeResult; readonly sources: readonly string[] }> {
  const { prepared, sources } = await openPrepared(path, families);
  const kernel = await loadKernel();
  return { result: blaming(path, () => make(kernel, prepared)), sources };
}
