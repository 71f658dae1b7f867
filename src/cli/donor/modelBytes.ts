import { readFile, stat } from 'node:fs/promises';
import type { Problem } from '../../job/problem.ts';
import { RefusedFile } from '../refusedFile.ts';
import { systemProblem } from '../systemProblem.ts';

/** What a donor may be. */
export const A_MODEL = 'a model in STL or 3MF';

/** Largest model taken, bytes: two million triangles in binary STL, more than any printable part needs. */
const LARGEST = 128 * 1024 * 1024;

/** Bytes of a model's file; its kind and size are looked at first. Throws `RefusedFile`, blaming `field` of `blamed`. */
export async function modelBytes(blamed: string, path: string, field: string): Promise<Uint8Array> {
  const refuse = (problem: Omit<Problem, 'field'>): never => {
    throw new RefusedFile(blamed, [{ ...problem, field }]);
  };
  try {
    const found = await stat(path);
    if (!found.isFile())
      refuse({
        code: 'not_a_file',
        value: found.isDirectory() ? 'a folder' : 'not a plain file',
        allowed: A_MODEL,
      });
    if (found.size > LARGEST) {
      const size = `${Math.round(found.size / 1024 / 1024)} MiB`;
      refuse({
        code: 'file_too_large',
        value: size,
        allowed: `${A_MODEL} of at most ${LARGEST / 1024 / 1024} MiB`,
      });
    }
    return await readFile(path);
  } catch (error) {
    if (error instanceof RefusedFile) throw error;
    throw new RefusedFile(blamed, [systemProblem(error, field, A_MODEL)]);
  }
}
