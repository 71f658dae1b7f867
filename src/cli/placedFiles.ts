import { realpath } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { jobText } from '../job/jobText.ts';
import type { JobFile } from '../job/schema.ts';
import { profileText } from '../printer/profileText.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { A_PRINTER, besideJob, readJson } from './openJob.ts';
import type { PlacedFile } from './writeTogether.ts';

/** A file in its own folder, links followed, so that what they point to is what changes. */
async function inPlace(path: string, text: string): Promise<PlacedFile> {
  const real = await realpath(path).catch(() => path);
  return { folder: dirname(real), name: basename(real), bytes: new TextEncoder().encode(text) };
}

/** A job file, changed, ready to be written beside others; the rest as it is in the file, read afresh. Throws
 *  `RefusedFile` when it cannot be read. */
export async function changedJob(path: string, change: (job: JobFile) => JobFile): Promise<PlacedFile> {
  return inPlace(path, jobText(change((await readJson(path, path, '', 'a job file')) as JobFile)));
}

/** A printer profile in its own file, ready to be written beside others. */
export const profileIn = (path: string, profile: PrinterProfile): Promise<PlacedFile> =>
  inPlace(path, profileText(profile));

/** The file of the printer profile that a job names; undefined where it holds one itself, or none. Throws `RefusedFile`. */
export async function profilePathOf(path: string): Promise<string | undefined> {
  const { printer } = (await readJson(path, path, '', 'a job file')) as JobFile;
  return typeof printer === 'string' ? besideJob(path, printer, 'printer', A_PRINTER) : undefined;
}
