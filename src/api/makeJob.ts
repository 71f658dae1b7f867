import type { MadeFile, MadeKind } from '../job/madeFile.ts';
import { resultObject } from '../job/resultObject.ts';
import type { ResultFile } from '../job/resultSchema.ts';
import { listed, takeAway } from '../job/takeAway.ts';
import { baseOf } from './inner.ts';
import type { OpenJob } from './openedJob.ts';
import { throughPipeline } from './throughPipeline.ts';

/** What a job is to leave behind. */
export interface MakeOptions {
  /** Kinds of file; the STL alone unless told. */
  readonly kinds?: readonly MadeKind[];
  /** The STL as text. */
  readonly ascii?: boolean;
  /** What the names of the files begin with; the title of the job unless told. */
  readonly name?: string;
}

/** Says whether the part will fit and what is wrong with it; makes no files. The result is the object that
 *  `fettle check --json` prints, its form that of the JSON Schema `result`: lengths in mm, chances 0 to 1. The same job
 *  gives the same result. Throws `Refused` with every problem of its readings, choices and sizes. */
export async function check(job: OpenJob): Promise<ResultFile> {
  return resultObject((await throughPipeline(job)).result, []);
}

/** Makes the part: its files as bytes, the very bytes of the command, and the result that lists them by name. A set of parts has
 *  an STL each. Throws `Refused` as `check` does, and for a 3MF whose parts do not fit on the bed.
 *  @example (await make(job, { name: 'feet' })).files.map(({ name }) => name) // => ['feet.stl'] */
export async function make(
  job: OpenJob,
  { kinds = ['stl'], ascii = false, name }: MakeOptions = {},
): Promise<{ readonly result: ResultFile; readonly files: readonly MadeFile[] }> {
  const made = await throughPipeline(job);
  const files = takeAway(made, baseOf(job, name), { kinds, ascii });
  return {
    files,
    result: resultObject(
      made.result,
      listed(files, (file) => file),
    ),
  };
}
