import { realpath } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { jobText } from '../../job/jobText.ts';
import type { JobFile, LadderRecord } from '../../job/schema.ts';
import { profileText } from '../../printer/profileText.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { readJson } from '../openJob.ts';
import type { PlacedFile } from '../writeTogether.ts';

const bytes = (text: string) => new TextEncoder().encode(text);

/** A file in its own folder, links followed, so that what they point to is what changes. */
async function inPlace(path: string, text: string): Promise<PlacedFile> {
  const real = await realpath(path).catch(() => path);
  return { folder: dirname(real), name: basename(real), bytes: bytes(text) };
}

/** The job file with a ladder in it, and with another printer profile where it holds one; the rest as it is in the file,
 *  read afresh. Throws `RefusedFile` when it cannot be read. */
export async function jobWith(
  path: string,
  group: string,
  record: LadderRecord,
  printer?: PrinterProfile,
): Promise<PlacedFile> {
  const job = (await readJson(path, path, '', 'a job file')) as JobFile;
  const ladders = { ...job.ladders, [group]: record };
  return inPlace(path, jobText({ ...job, ...(printer && { printer }), ladders } as JobFile));
}

/** A printer profile in its own file. */
export const profileIn = (path: string, profile: PrinterProfile): Promise<PlacedFile> =>
  inPlace(path, profileText(profile));
