import { open, stat } from 'node:fs/promises';
import { beginsAsZip } from '../archive/zipArchive.ts';
import type { Problem } from '../job/problem.ts';
import { noteRead } from './disk/lastRead.ts';
import { readWhole } from './readWhole.ts';
import { systemProblem } from './systemProblem.ts';

/** Largest file taken, bytes; a job with hundreds of readings has some ten thousand. */
const LARGEST_FILE = 5 * 1024 * 1024;

interface Wanted {
  /** Field of the problems: empty for the job itself. */
  readonly field: string;
  /** "a job file": what is allowed when the file is not there. */
  readonly what: string;
}

/** Text of a plain file in UTF-8, byte order mark left out, or what is wrong with it. It is read whole, as `readWhole` does, and
 *  remembered, so that it is known later whether somebody else has changed it. */
export async function readTextFile(path: string, { field, what }: Wanted): Promise<string | Problem> {
  try {
    if (/\.zip$/i.test(path) && (await isArchive(path))) {
      const instead = `what is in a bundle comes out with "fettle open ${path} --out FOLDER"`;
      return { code: 'is_archive', field, value: 'a zip archive', allowed: `${what}; ${instead}` };
    }
    const read = await readWhole(path, { what, largest: LARGEST_FILE });
    if (!(read instanceof Uint8Array)) return { ...read, field };
    noteRead(path, read);
    return decoded(read) ?? { code: 'not_utf8', field, value: 'not UTF-8 text', allowed: `${what} in UTF-8` };
  } catch (error) {
    return systemProblem(error, field, what);
  }
}

async function isArchive(path: string): Promise<boolean> {
  return (await stat(path)).isFile() && beginsAsZip(await firstBytes(path));
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
