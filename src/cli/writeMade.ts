import { join } from 'node:path';
import type { MadeJob } from '../job/madeJob.ts';
import { madeFiles, type Wanted } from './madeFiles.ts';
import { mustSpare } from './mustSpare.ts';
import { blaming } from './refusedFile.ts';
import { writeTogether } from './writeTogether.ts';

interface Where extends Wanted {
  /** Files the result was made from, the one that all is about first; none of them is written over. */
  readonly sources: readonly string[];
}

/** Writes the STL of every part, what else is wanted, and the result beside them, all or none. Gives the result as text and
 *  the paths written. */
export async function writeMade(
  made: MadeJob,
  { sources, ...wanted }: Where,
): Promise<{ readonly text: string; readonly paths: readonly string[] }> {
  const { out } = wanted;
  const { files, text } = blaming(sources[0] ?? out, () => madeFiles(made, wanted));
  const names = files.map(({ name }) => name);
  await mustSpare(sources, out, names);
  await writeTogether(out, files);
  return { text, paths: names.map((name) => join(out, name)) };
}
