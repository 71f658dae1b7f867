import { randomBytes } from 'node:crypto';
import { rmSync } from 'node:fs';
import { lstat, mkdir, open, rename, rm, rmdir, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { RefusedFile } from './refusedFile.ts';
import { systemProblem } from './systemProblem.ts';

/** A file about to be written. */
export interface OutputFile {
  /** Without folder. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

const allowed = 'a folder that can be written to';

/** A file about to be written, with its folder. */
export interface PlacedFile extends OutputFile {
  readonly folder: string;
}

/** Writes files into a folder, all or none; see `writeEverywhere`. */
export const writeTogether = (folder: string, files: readonly OutputFile[]): Promise<void> =>
  writeEverywhere(files.map((file) => ({ ...file, folder })));

/** Writes files into their folders, all or none: each goes to a sibling first, and the siblings take their names once the
 *  last byte of the last of them is on the disk. Folders are made when needed. On failure, and on an interrupt,
 *  whatever was there stays as it was and nothing new remains.
 *  Throws `RefusedFile` with what the system said, and the folder concerned. */
export async function writeEverywhere(files: readonly PlacedFile[]): Promise<void> {
  const asides = files.map(({ folder, name }) => join(folder, `.${name}.${randomBytes(6).toString('hex')}`));
  const removeAsides = () => {
    for (const aside of asides) rmSync(aside, { force: true });
  };
  const interrupted = (signal: NodeJS.Signals) => {
    removeAsides();
    process.kill(process.pid, signal);
  };
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
  for (const signal of signals) process.once(signal, interrupted);

  const made: string[] = [];
  let at = files[0]?.folder ?? '';
  try {
    for (const { folder } of files) {
      at = folder;
      await makeFolder(resolve(folder), made);
    }
    for (const { folder, name } of files) await mustBeReplaceable(folder, name);
    for (const [k, { folder, bytes }] of files.entries()) {
      at = folder;
      await writeThrough(asides[k]!, bytes);
    }
    for (const [k, { folder, name }] of files.entries()) {
      at = folder;
      await rename(asides[k]!, join(folder, name));
    }
  } catch (error) {
    for (const aside of asides) await rm(aside, { force: true }).catch(() => {});
    for (const each of made.reverse()) await rmdir(each).catch(() => {});
    throw error instanceof RefusedFile
      ? error
      : new RefusedFile(at, [systemProblem(error, '--out', allowed)]);
  } finally {
    for (const signal of signals) process.off(signal, interrupted);
  }
}

/** Looked at before the first rename, which would otherwise succeed where the second fails. */
async function mustBeReplaceable(folder: string, name: string): Promise<void> {
  const found = await lstat(join(folder, name)).catch(() => undefined);
  if (found === undefined || found.isFile()) return;
  throw new RefusedFile(folder, [
    {
      code: 'output_in_the_way',
      field: name,
      value: found.isDirectory() ? 'a folder of that name' : 'no plain file',
      allowed: 'a plain file, or none yet',
    },
  ]);
}

async function writeThrough(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'wx');
  try {
    await file.writeFile(bytes);
    // Renamed before its content is on the disk, a file would be empty after a power cut.
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Makes a folder and those above it, adding each to `made`. Done by hand because Node's own recursive way never comes
 *  back from a file system that knows no new folders, /proc for one (Node 20). */
async function makeFolder(path: string, made: string[]): Promise<void> {
  const found = await stat(path).catch((error: NodeJS.ErrnoException) => error.code);
  if (typeof found === 'object' && found.isDirectory()) return;
  if (found === 'ENOENT' && dirname(path) !== path) await makeFolder(dirname(path), made);
  await mkdir(path);
  made.push(path);
}
