import { createHash } from 'node:crypto';
import { realpathSync } from 'node:fs';

/** Hashes of the files that this process has read, by real path. One process is one command, so what it read is known here
 *  and need not be carried through everything that lies between reading and writing. */
const first = new Map<string, string>();
const last = new Map<string, string>();

export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Notes what was read from a file. */
export function noteRead(path: string, bytes: Uint8Array): void {
  const real = realOf(path);
  const hash = hashOf(bytes);
  if (!first.has(real)) first.set(real, hash);
  last.set(real, hash);
}

/** Notes what was written into a file: from now on that is what this process knows of it. */
export function noteWritten(path: string, bytes: Uint8Array): void {
  const real = realOf(path);
  first.set(real, hashOf(bytes));
  last.set(real, hashOf(bytes));
}

/** SHA-256 of a file as this process first read it, or last wrote it; undefined of one it does not know. */
export const firstRead = (path: string): string | undefined => first.get(realOf(path));

/** SHA-256 of a file as this process last read or wrote it. */
export const lastRead = (path: string): string | undefined => last.get(realOf(path));

function realOf(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}
