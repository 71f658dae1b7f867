import { linkSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { identityOf } from './identity.ts';
import { remove } from './leftovers.ts';
import { newId, traceName } from './traces.ts';
import { attempt, syncFolder, writeThrough } from './writeThrough.ts';
import { type PlannedFile, planText, seenFrom } from './writingPlan.ts';

/** A file to be put in its place. */
export interface Replacement {
  /** Real path of a folder whose lock the caller holds. */
  readonly folder: string;
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Puts files in their places, all or none, also where the process is killed in the middle or the current fails: each is written
 *  aside first and forced onto the disk; of several a plan is written then, which counts from the moment that it has its
 *  name, and whoever next looks into one of the folders brings it to its end. Mode and owner stay as they were.
 *  `at` hears which file is at work before anything can fail. Throws what the system says, with all as it was. */
export function replaceFiles(
  files: readonly Replacement[],
  at: (file: Replacement) => void = () => {},
): void {
  const id = newId();
  const part = (k: number) => join(files[k]!.folder, traceName(id, 'part', k));
  const old = (k: number) => join(files[k]!.folder, traceName(id, 'old', k));
  const place = (k: number) => join(files[k]!.folder, files[k]!.name);
  const folders = [...new Set(files.map(({ folder }) => folder))];
  const [home = '', ...others] = folders;
  const several = files.length > 1;
  const before = files.map(({ folder, name }) => identityOf(join(folder, name)));
  const planned = ({ folder, name }: Replacement, k: number): PlannedFile => ({
    ...{ folder: seenFrom(home, folder), part: traceName(id, 'part', k), name, was: before[k] ?? null },
  });
  let renamed = 0;
  try {
    for (const [k, file] of files.entries()) {
      at(file);
      writeThrough(part(k), file.bytes, place(k));
    }
    at(files[0]!);
    if (several) {
      for (const k of files.keys()) keepOld(place(k), old(k));
      for (const other of others)
        writeThrough(join(other, traceName(id, 'see')), encoded(seenFrom(other, home)));
      writeThrough(join(home, traceName(id, 'plan')), encoded(planText(files.map(planned))));
      renameSync(join(home, traceName(id, 'plan')), join(home, traceName(id, 'commit')));
    }
    for (const [k, file] of files.entries()) {
      at(file);
      renameSync(part(k), place(k));
      renamed = k + 1;
    }
    for (const folder of folders) syncFolder(folder);
  } catch (error) {
    // What has its name already goes back, so that all is as it was; what cannot, is as good as new.
    for (let k = renamed - 1; k >= 0; k--) takeBack(place(k), old(k), before[k] === null);
    throw error;
  } finally {
    // The plan first: without it the rest is nobody's, whether all have their names by now or none is to have one.
    const traces = [
      ...(several ? [join(home, traceName(id, 'commit')), join(home, traceName(id, 'plan'))] : []),
      ...others.map((other) => join(other, traceName(id, 'see'))),
      ...files.flatMap((_, k) => [part(k), old(k)]),
    ];
    for (const trace of traces) removeQuietly(trace);
  }
}

const keepOld = (path: string, old: string): void => attempt(() => linkSync(path, old));

function takeBack(path: string, old: string, wasNone: boolean): void {
  attempt(() => {
    if (wasNone) remove(path);
    else if (identityOf(old) !== null) renameSync(old, path);
  });
}

const removeQuietly = (path: string): void => attempt(() => remove(path));

const encoded = (text: string): Uint8Array => new TextEncoder().encode(text);
