import type { Family } from '../../family/family.ts';
import type { MadeKind } from '../../job/madeFile.ts';
import type { Problem } from '../../job/problem.ts';
import type { Remembered } from '../../remembered/remembered.ts';
import { madeFiles } from '../madeFiles.ts';
import { makeJob } from '../makeJob.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import type { OutputFile } from '../writeTogether.ts';

/** One job to be made; plain data, for it goes to another thread. */
export interface MakeTask {
  readonly path: string;
  readonly base: string;
  readonly out: string;
  readonly ascii: boolean;
  readonly with: readonly Exclude<MadeKind, 'stl'>[];
}

/** What comes back: files to be written, or why there are none. Plain data. */
export type MakeAnswer =
  | { readonly files: readonly OutputFile[]; readonly text: string; readonly sources: readonly string[] }
  | { readonly refused: { readonly file: string; readonly problems: readonly Problem[] } };

/** Makes one job in memory. Writing is left to the main thread: signals reach no other, and an interrupted write would leave
 *  half a file behind. `known`: what the thread remembers of the jobs before. Throws what is no refusal. */
export async function makeOne(
  { path, ...wanted }: MakeTask,
  families: readonly Family[],
  known: Remembered,
): Promise<MakeAnswer> {
  try {
    const made = await makeJob(path, families, known);
    const files = blaming(path, () => madeFiles(made, wanted));
    return { ...files, sources: made.sources };
  } catch (error) {
    if (!(error instanceof RefusedFile)) throw error;
    return { refused: { file: error.file, problems: error.problems } };
  }
}
