import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Family } from '../family/family.ts';
import type { Job } from '../job/schema.ts';
import { baseName } from './fileNames.ts';
import { findFamily } from './findFamily.ts';
import { openJob } from './openJob.ts';

interface SheetSubject {
  readonly family: Family;
  /** Absent: the sheet of the family, with typical sizes. */
  readonly job: Job | undefined;
  /** Of the file, without extension. */
  readonly name: string;
  readonly sources: readonly string[];
}

/** What the word after `fettle sheet` means: a family, or else a job file. What exists neither as one nor the other
 *  is taken for a file when it looks like a path and for a misspelt family when it does not. */
export async function sheetSubject(part: string, families: readonly Family[]): Promise<SheetSubject> {
  const named = families.find(({ id }) => id === part);
  const looksLikePath = /[/\\.]/.test(part) || (await exists(part));
  if (named !== undefined || !looksLikePath) {
    const family = findFamily(part, families);
    return { family, job: undefined, name: family.id, sources: [] };
  }
  const { job, family, sources } = await openJob(part, families);
  return { family, job, name: baseName(part, family.id), sources };
}

/** Where the page goes: a folder gets `NAME.sheet.html`, anything else is the file itself. */
export async function sheetPath(out: string | undefined, name: string): Promise<string> {
  const file = `${name}.sheet.html`;
  if (out === undefined) return file;
  return /[/\\]$/.test(out) || (await isFolder(out)) ? join(out, file) : out;
}

const exists = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );

const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
