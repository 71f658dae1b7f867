import { join } from 'node:path';
import type { MadeKind } from '../job/madeFile.ts';
import type { MadeJob } from '../job/madeJob.ts';
import { resultObject } from '../job/resultObject.ts';
import { listed, takeAway } from '../job/takeAway.ts';
import type { OutputFile } from './writeTogether.ts';

/** What a job is to leave behind, and where. */
export interface Wanted {
  /** Name of the files, without extension. */
  readonly base: string;
  readonly out: string;
  readonly ascii: boolean;
  /** What to write beside the STL. */
  readonly with?: readonly Exclude<MadeKind, 'stl'>[];
  /** Further fields of the result. */
  readonly besides?: object;
}

/** The files of a job as they will lie in `out`, the result that lists them last, and the result as text. */
export function madeFiles(
  made: MadeJob,
  { base, out, ascii, with: others = [], besides = {} }: Wanted,
): { readonly files: readonly OutputFile[]; readonly text: string } {
  const files = takeAway(made, base, { kinds: ['stl', ...others], ascii });
  const list = listed(files, (name) => join(out, name));
  const text = `${JSON.stringify({ ...resultObject(made.result, list), ...besides }, null, 2)}\n`;
  const report = { name: resultName(base), bytes: new TextEncoder().encode(text) };
  return { files: [...files.map(({ name, bytes }) => ({ name, bytes })), report], text };
}

/** Name of the result of a job, beside its files. */
export const resultName = (base: string): string => `${base}.json`;
