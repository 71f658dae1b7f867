import { join } from 'node:path';
import { resultObject } from '../job/resultObject.ts';
import { listed, type MadeJob, type MadeKind, takeAway } from '../job/takeAway.ts';
import { mustSpare } from './mustSpare.ts';
import { writeTogether } from './writeTogether.ts';

interface Where {
  /** Name of the files, without extension. */
  readonly base: string;
  readonly out: string;
  /** Files the result was made from, none of which is written over. */
  readonly sources: readonly string[];
  readonly ascii: boolean;
  /** What to write beside the STL. */
  readonly with?: readonly Exclude<MadeKind, 'stl'>[];
  /** Further fields of the result. */
  readonly besides?: object;
}

/** Writes the STL of every part, what else is wanted, and the result beside them, all or none. Gives the result as text and
 *  the paths written. */
export async function writeMade(
  made: MadeJob,
  { base, out, sources, ascii, with: others = [], besides = {} }: Where,
): Promise<{ readonly text: string; readonly paths: readonly string[] }> {
  const files = takeAway(made, base, { kinds: ['stl', ...others], ascii });
  const report = `${base}.json`;
  const names = [...files.map(({ name }) => name), report];
  await mustSpare(sources, out, names);

  const list = listed(files, (name) => join(out, name));
  const text = `${JSON.stringify({ ...resultObject(made.result, list), ...besides }, null, 2)}\n`;
  await writeTogether(out, [...files, { name: report, bytes: new TextEncoder().encode(text) }]);
  return { text, paths: names.map((name) => join(out, name)) };
}
