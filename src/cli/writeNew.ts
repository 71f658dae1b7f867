import { linkSync, renameSync } from 'node:fs';
import { access, constants, realpath } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { holding } from './disk/holding.ts';
import { identityOf } from './disk/identity.ts';
import { clearAway, remove } from './disk/leftovers.ts';
import { newId, traceName } from './disk/traces.ts';
import { syncFolder, writeThrough } from './disk/writeThrough.ts';
import { RefusedFile } from './refusedFile.ts';
import { isSystemError, systemProblem } from './systemProblem.ts';

/** Writes a file that must not exist yet, whole or not at all. A hard link takes the name only if it is free, which
 *  renaming would not ask. Throws `RefusedFile` when the name is taken or the system refuses. */
export async function writeNew(path: string, text: string): Promise<void> {
  try {
    const folder = await realpath(dirname(path));
    await holding([folder], () => {
      clearAway(folder);
      takeFreeName(join(folder, basename(path)), new TextEncoder().encode(text));
      syncFolder(folder);
    });
  } catch (error) {
    throw refusalOf(path, error);
  }
}

/** Looks whether `writeNew` would find the name free and the folder open, so that nobody answers questions for nothing.
 *  Throws `RefusedFile` as it does. */
export async function mustBeFree(path: string): Promise<void> {
  let isTaken: boolean;
  try {
    await access(await realpath(dirname(path)), constants.W_OK);
    isTaken = identityOf(path) !== null;
  } catch (error) {
    throw refusalOf(path, error);
  }
  if (isTaken) throw new RefusedFile(path, [TAKEN]);
}

const TAKEN = { code: 'job_exists', field: '', value: 'exists already', allowed: 'a new name' } as const;

function refusalOf(path: string, error: unknown): RefusedFile {
  if (error instanceof RefusedFile) return error;
  const isTaken = isSystemError(error) && error.code === 'EEXIST';
  const closed = () => systemProblem(error, '', 'a file name in a folder that can be written to');
  return new RefusedFile(path, [isTaken ? TAKEN : closed()]);
}

function takeFreeName(path: string, bytes: Uint8Array): void {
  const aside = join(dirname(path), traceName(newId(), 'part', 0));
  try {
    writeThrough(aside, bytes);
    try {
      linkSync(aside, path);
    } catch (error) {
      // Memory cards know no links; there the lock of the folder alone keeps others of our own away.
      const noLinks = isSystemError(error) && ['EPERM', 'ENOTSUP', 'ENOSYS'].includes(error.code ?? '');
      if (!noLinks || identityOf(path) !== null) throw error;
      renameSync(aside, path);
    }
  } finally {
    remove(aside);
  }
}
