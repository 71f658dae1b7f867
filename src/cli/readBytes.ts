import { readFile, stat } from 'node:fs/promises';
import type { Problem } from '../job/problem.ts';
import { RefusedFile } from './refusedFile.ts';
import { systemProblem } from './systemProblem.ts';

interface Wanted {
  /** Field of the problems: empty for the file itself. */
  readonly field: string;
  /** "a model in STL or 3MF": what is allowed when it is something else. */
  readonly what: string;
  /** Largest size taken, bytes. */
  readonly largest: number;
}

/** Bytes of a plain file; its kind and size are looked at first. Throws `RefusedFile`, blaming `field` of `blamed`. */
export async function readBytes(
  blamed: string,
  path: string,
  { field, what, largest }: Wanted,
): Promise<Uint8Array> {
  const refuse = (problem: Omit<Problem, 'field'>): never => {
    throw new RefusedFile(blamed, [{ ...problem, field }]);
  };
  try {
    const found = await stat(path);
    if (!found.isFile())
      refuse({
        code: 'not_a_file',
        value: found.isDirectory() ? 'a folder' : 'not a plain file',
        allowed: what,
      });
    if (found.size > largest) {
      const size = `${Math.round(found.size / 1024 / 1024)} MiB`;
      refuse({
        code: 'file_too_large',
        value: size,
        allowed: `${what} of at most ${largest / 1024 / 1024} MiB`,
      });
    }
    return await readFile(path);
  } catch (error) {
    if (error instanceof RefusedFile) throw error;
    throw new RefusedFile(blamed, [systemProblem(error, field, what)]);
  }
}
