import { chmodSync, chownSync, closeSync, fsyncSync, lstatSync, openSync, writeSync } from 'node:fs';

/** Writes a new file and forces it onto the disk: named before its content is there, a file would be empty after a power cut.
 *  `like` is the file whose place it takes, if there is one. */
export function writeThrough(path: string, bytes: Uint8Array, like?: string): void {
  const file = openSync(path, 'wx');
  try {
    // A disk that is nearly full takes a part and says so by the count alone.
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  const found = like === undefined ? undefined : lstatSync(like, { throwIfNoEntry: false });
  if (found === undefined) return;
  attempt(() => chownSync(path, found.uid, found.gid));
  attempt(() => chmodSync(path, found.mode & 0o7777));
}

/** Puts the names of a folder on the disk, so that what was said to be saved is there after a power cut. Some systems cannot. */
export const syncFolder = (folder: string): void =>
  attempt(() => {
    const file = openSync(folder, 'r');
    try {
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
  });

/** For what is as well left undone where the system cannot do it. */
export function attempt(work: () => void): void {
  try {
    work();
  } catch {
    // Nothing that was promised depends on it.
  }
}
