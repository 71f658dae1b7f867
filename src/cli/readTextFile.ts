import { open, readFile, stat } from 'node:fs/promises';
import { beginsAsZip } from '../archive/zipArchive.ts';
import type { Problem } from '../job/problem.ts';
import { systemProblem } from './systemProblem.ts';

/** Largest file taken, bytes; a job with hundreds of readings has some ten thousand. */
const LARGEST_FILE = 5 * 1024 * 1024;

interface Wanted {
  /** Field of the problems: empty for the job itself. */
  readonly field: string;
  /** "a job file": what is allowed when the file is not there. */
  readonly what: string;
}

/** Text of a plain file in UTF-8, byte order mark left out, or what is wrong with it.
 *  Its kind and size are looked at before anything is read, so a device or a disk image does no harm. */
export async function readTextFile(path: string, { field, what }: Wanted): Promise<string | Problem> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) return { code: 'not_a_file', field, value: 'a folder', allowed: what };
    if (!found.isFile()) return { code: 'not_a_file', field, value: 'not a plain file', allowed: what };
    if (/\.zip$/i.test(path) && beginsAsZip(await firstBytes(path))) {
      return {
        code: 'is_archive',
        field,
        value: 'a zip archive',
        allowed: `${what}; what is in a bundle comes out with "fettle open ${path} --out FOLDER"`,
      };
    }
    if (found.size > LARGEST_FILE) {
      const megabytes = (found.size / 1024 / 1024).toFixed(1);
      return {
        code: 'file_too_large',
        field,
        value: `${megabytes} MiB`,
        allowed: `${what} of at most 5 MiB`,
      };
    }
    const bytes = await readFile(path);
    return (
      decoded(bytes) ?? { code: 'not_utf8', field, value: 'not UTF-8 text', allowed: `${what} in UTF-8` }
    );
  } catch (error) {
    return systemProblem(error, field, what);
  }
}

async function firstBytes(path: string): Promise<Uint8Array> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(new Uint8Array(4), 0, 4);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}

function decoded(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
