import { realpath } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { jobText } from '../job/jobText.ts';
import type { JobFile } from '../job/schema.ts';
import { profileText } from '../printer/profileText.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { besideJob } from './besideJob.ts';
import { firstRead, lastRead } from './disk/lastRead.ts';
import { A_PRINTER } from './openJob.ts';
import { readJson } from './readJson.ts';
import { ChangedMeanwhile } from './refusedFile.ts';
import { type PlacedFile, writeEverywhere } from './writeTogether.ts';

interface Wanted {
  /** Field to blame where the file cannot be written; empty for the file itself. */
  readonly field?: string;
  /** What somebody else has written into the file since this command read it: `stays`, where the change can be made to that as
   *  well; it is refused otherwise. */
  readonly meanwhile?: 'stays';
}

/** A file in its own folder, links followed, so that what they point to is what changes. */
async function inPlace(
  path: string,
  text: string,
  field: string,
  was: string | undefined,
): Promise<PlacedFile> {
  const real = await realpath(path).catch(() => path);
  const bytes = new TextEncoder().encode(text);
  return { folder: dirname(real), name: basename(real), bytes, about: { path, field }, was };
}

/** A job file, changed, ready to be written beside others; the rest as it is in the file, read afresh. Throws
 *  `RefusedFile` when it cannot be read. */
export async function changedJob(
  path: string,
  change: (job: JobFile) => JobFile,
  { field = '', meanwhile }: Wanted = {},
): Promise<PlacedFile> {
  const job = (await readJson(path, path, '', 'a job file')) as JobFile;
  const was = meanwhile === 'stays' ? lastRead(path) : firstRead(path);
  return inPlace(path, jobText(change(job)), field, was);
}

/** A printer profile in its own file, ready to be written beside others, where nobody has changed it since it was read. */
export const profileIn = (path: string, profile: PrinterProfile): Promise<PlacedFile> =>
  inPlace(path, profileText(profile), '', firstRead(path));

/** Tries of a change that others come in between of: each of them has written something then, so it goes on. */
const TRIES = 200;

/** Writes files as `writeEverywhere` does; `make` is asked again where the file at `path` was changed after `make` read it. Throws
 *  as both do. */
export async function writeAfresh(path: string, make: () => Promise<readonly PlacedFile[]>): Promise<void> {
  for (let tries = 1; ; tries++) {
    const files = await make();
    const fresh = files.some(
      ({ about, was }) => about?.path === path && (was ?? undefined) === lastRead(path),
    );
    try {
      return await writeEverywhere(files);
    } catch (error) {
      const again = error instanceof ChangedMeanwhile && error.file === path && fresh && tries < TRIES;
      if (!again) throw error;
    }
  }
}

/** The file of the printer profile that a job names; undefined where it holds one itself, or none. Throws `RefusedFile`. */
export async function profilePathOf(path: string): Promise<string | undefined> {
  const { printer } = (await readJson(path, path, '', 'a job file')) as JobFile;
  return typeof printer === 'string' ? besideJob(path, printer, 'printer', A_PRINTER) : undefined;
}
