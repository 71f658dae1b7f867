import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** Files below a folder, hidden ones too, with their bytes. */
export type FileSet = ReadonlyMap<string, Buffer>;

export const filesIn = (folder: string): FileSet =>
  new Map(
    (readdirSync(folder, { recursive: true }) as string[])
      .filter((name) => statSync(join(folder, name)).isFile())
      .sort()
      .map((name) => [name, readFileSync(join(folder, name))]),
  );

export function putFiles(folder: string, files: FileSet): void {
  for (const [name, bytes] of files) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), bytes);
  }
}

export const isTrace = (name: string): boolean => /(^|\/)\.fettle-/.test(name);

/** Names by which two sets differ: files that only one has, or of other bytes. */
export const differences = (a: FileSet, b: FileSet): readonly string[] =>
  [...new Set([...a.keys(), ...b.keys()])].filter((name) => !same(a.get(name), b.get(name)));

export const same = (a: Buffer | undefined, b: Buffer | undefined): boolean =>
  a === undefined || b === undefined ? a === b : a.equals(b);
