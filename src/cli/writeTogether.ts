import { lstatSync, readFileSync } from 'node:fs';
import { mkdir, realpath, rmdir, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { holding } from './disk/holding.ts';
import { identityOf } from './disk/identity.ts';
import { hashOf, noteWritten } from './disk/lastRead.ts';
import { clearAway } from './disk/leftovers.ts';
import { replaceFiles } from './disk/replaceFiles.ts';
import { ChangedMeanwhile, RefusedFile } from './refusedFile.ts';
import { systemProblem } from './systemProblem.ts';

/** A file about to be written. */
export interface OutputFile {
  /** Without folder. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A file about to be written, with its folder. */
export interface PlacedFile extends OutputFile {
  readonly folder: string;
  /** For a file that the person named and that is changed: its path as they know it, and the field that is at fault. */
  readonly about?: { readonly path: string; readonly field: string };
  /** SHA-256 of what must be there still, null where nothing must; where anything else is, somebody has written meanwhile. */
  readonly was?: string | null | undefined;
}

/** Writes files into a folder, all or none; see `writeEverywhere`. */
export const writeTogether = (folder: string, files: readonly OutputFile[]): Promise<void> =>
  writeEverywhere(files.map((file) => ({ ...file, folder })));

/** Writes files into their folders, all or none, while no other process does; the one way by which anything but a new job or profile
 *  gets onto the disk. Folders are made when needed. On failure whatever was there stays as it was and nothing new remains;
 *  an interrupt waits until all is written or nothing; and what a killed process leaves is cleared away before.
 *  Throws `RefusedFile` with what the system said and the folder or file concerned, or that another process is writing
 *  there; `ChangedMeanwhile` when a file is not what it was. */
export async function writeEverywhere(files: readonly PlacedFile[]): Promise<void> {
  const made: string[] = [];
  const placed: PlacedFile[] = [];
  let at = files[0];
  try {
    for (const file of files) {
      at = file;
      await makeFolder(resolve(file.folder), made);
      placed.push({ ...file, folder: await realpath(file.folder) });
    }
    const folders = placed.map(({ folder }) => folder);
    at = files[0];
    await holding(folders, () => {
      for (const folder of new Set(folders)) clearAway(folder);
      for (const [k, { folder, name, was }] of placed.entries()) {
        at = files[k];
        mustBeReplaceable(files[k]!.folder, name);
        if (was !== undefined && hashAt(join(folder, name), was) !== was)
          throw new ChangedMeanwhile(at?.about?.path ?? at!.folder);
      }
      replaceFiles(placed, (file) => {
        at = files[placed.indexOf(file as PlacedFile)];
      });
    });
    for (const { folder, name, bytes, about } of placed) if (about) noteWritten(join(folder, name), bytes);
  } catch (error) {
    for (const each of made.reverse()) await rmdir(each).catch(() => {});
    if (!(error instanceof RefusedFile)) throw refusal(error, at);
    // A folder that is busy is told by the name that the person gave it.
    const busy = placed.findIndex(({ folder }) => folder === error.file);
    throw busy === -1 ? error : new RefusedFile(files[busy]!.folder, error.problems);
  }
}

const refusal = (error: unknown, file: PlacedFile | undefined): RefusedFile =>
  file?.about === undefined
    ? new RefusedFile(file?.folder ?? '', [systemProblem(error, '--out', 'a folder that can be written to')])
    : new RefusedFile(file.about.path, [
        systemProblem(error, file.about.field, 'a file that can be written to'),
      ]);

/** What is there now, to be compared with what was; that something expected is gone is for the system to say. */
const hashAt = (path: string, was: string | null): string | null =>
  was === null && identityOf(path) === null ? null : hashOf(readFileSync(path));

/** Looked at before the first file takes its name, which would otherwise succeed where the second fails. */
function mustBeReplaceable(folder: string, name: string): void {
  const found = lstatSync(join(folder, name), { throwIfNoEntry: false });
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

/** Makes a folder and those above it, adding each to `made`. Done by hand because Node's own recursive way never comes
 *  back from a file system that knows no new folders, /proc for one (Node 20). */
async function makeFolder(path: string, made: string[]): Promise<void> {
  const found = await stat(path).catch((error: NodeJS.ErrnoException) => error.code);
  if (typeof found === 'object' && found.isDirectory()) return;
  if (found === 'ENOENT' && dirname(path) !== path) await makeFolder(dirname(path), made);
  await mkdir(path);
  made.push(path);
}
