import { createHash } from 'node:crypto';
import { open, readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { MadeKind } from '../../job/madeFile.ts';
import { type ResultFile, resultSchema } from '../../job/resultSchema.ts';
import { resultName } from '../madeFiles.ts';
import { readTextFile } from '../readTextFile.ts';
import type { SurveyedJob } from './surveyJob.ts';

interface Wanted {
  readonly out: string;
  readonly kinds: readonly MadeKind[];
  readonly ascii: boolean;
}

/** The result of a job that was made into `out` before, as making it now would write it; undefined when the job, its
 *  printer, its model or Fettle has changed since, a file is missing or is not what the result says, or other kinds of file
 *  are wanted. */
export async function madeAlready(
  { base, hash, parts }: Pick<SurveyedJob, 'base' | 'hash' | 'parts'>,
  { out, kinds, ascii }: Wanted,
): Promise<ResultFile | undefined> {
  const result = await resultAt(join(out, resultName(base)));
  if (result?.job.hash !== hash) return undefined;
  const { files } = result;
  const models = files.filter(({ kind }) => kind === 'stl');
  if (models.length !== parts.length) return undefined;
  if (!kinds.every((kind) => files.some((file) => file.kind === kind))) return undefined;
  for (const { path, sha256 } of files) {
    // From another folder the same file has another path, and the result says which.
    if (path !== join(out, basename(path)) || (await hashOf(path)) !== sha256) return undefined;
  }
  for (const { path } of models) if ((await isText(path)) !== ascii) return undefined;
  return result;
}

async function resultAt(path: string): Promise<ResultFile | undefined> {
  const text = await readTextFile(path, { field: '', what: '' });
  if (typeof text !== 'string') return undefined;
  try {
    return resultSchema.safeParse(JSON.parse(text)).data;
  } catch {
    return undefined;
  }
}

const hashOf = (path: string): Promise<string | undefined> =>
  readFile(path).then(
    (bytes) => createHash('sha256').update(bytes).digest('hex'),
    () => undefined,
  );

/** Whether an STL is the text kind; only that begins with this word. */
async function isText(path: string): Promise<boolean> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(6), 0, 6, 0);
    return buffer.toString('latin1', 0, bytesRead) === 'solid ';
  } finally {
    await file.close();
  }
}
