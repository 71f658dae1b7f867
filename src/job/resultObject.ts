import type { MakeResult } from './result.ts';
import { type ResultFile, resultSchema } from './resultSchema.ts';

/** A result in the form that is printed and written: without meshes, with the files, null for what is infinite.
 *  Throws `ZodError` where the pipeline broke the contract (a length that is no number, say), so that nobody reads it. */
export function resultObject(result: MakeResult, files: ResultFile['files']): ResultFile {
  const { job, parts: made, ...rest } = result;
  const parts = made.map(({ mesh: _, ...part }) => part);
  // JSON itself turns infinity into null; the schema knows where that may happen.
  return resultSchema.parse(JSON.parse(JSON.stringify({ job, files, ...rest, parts })));
}

/** The object as text, as it stands in the file and on the screen. */
export const resultText = (result: ResultFile): string => `${JSON.stringify(result, null, 2)}\n`;
