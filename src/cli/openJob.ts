import type { Family } from '../family/family.ts';
import { donorStandIn } from '../job/donorStandIn.ts';
import { type Prepared, prepare } from '../job/prepare.ts';
import { parseJob } from '../job/readJob.ts';
import { besideJob } from './besideJob.ts';
import type { OpenJob } from './openedJob.ts';
import { readJson } from './readJson.ts';
import { blaming, RefusedFile } from './refusedFile.ts';

export const A_JOB = 'a job file, as "fettle new" writes it';
export const A_PRINTER = 'the name of a printer profile beside the job, or in a folder below it';

/** Reads a job file and, where it names them, the printer profile and the donor beside it.
 *  Throws `RefusedFile` with every problem found. */
export async function openJob(path: string, families: readonly Family[]): Promise<OpenJob> {
  const opened = await openJobAlone(path, families);
  if (!opened.refits) return opened;
  const { openDonorJob } = await import('./donor/openDonorJob.ts');
  return openDonorJob(path, opened);
}

/** As `openJob`, but leaves the model alone that a job may refit: reading one takes its time. `refits` says that there is
 *  one; the family knows nothing of it then. Throws `RefusedFile`. */
export async function openJobAlone(
  path: string,
  families: readonly Family[],
): Promise<OpenJob & { readonly refits: boolean }> {
  const opened = await openPlainJob(path, [...families, donorStandIn]);
  const { job, family } = opened;
  const refits = family === donorStandIn;
  if (refits || job.donor === undefined) return { ...opened, refits };
  throw new RefusedFile(path, [
    {
      code: 'donor_not_asked',
      field: 'donor',
      value: JSON.stringify(job.donor.file),
      allowed: `family ${donorStandIn.id}, or no donor`,
      reason: `is nothing a ${family.title.toLowerCase()} is made from`,
    },
  ]);
}

const openPlainJob = async (path: string, families: readonly Family[]): Promise<OpenJob> =>
  openJobValue(path, await readJson(path, path, '', A_JOB), families);

/** A job that is there already as a value, with the profile it names; `path` is where it lies, or would. */
export async function openJobValue(
  path: string,
  value: unknown,
  families: readonly Family[] = [donorStandIn],
): Promise<OpenJob> {
  const { job, family } = blaming(path, () => parseJob(value, families));
  if (typeof job.printer !== 'string') return { job, family, sources: [path] };

  const printer = besideJob(path, job.printer, 'printer', A_PRINTER);
  const profile = await readJson(path, printer, 'printer', A_PRINTER);
  // Read again as a whole, so that the profile meets the same schema as one written into the job.
  const whole = blaming(path, () => parseJob({ ...(value as object), printer: profile }, families));
  if (typeof whole.job.printer === 'string') {
    throw new RefusedFile(path, [
      {
        code: 'printer_unread',
        field: 'printer',
        value: printer,
        allowed: 'a file that holds a printer profile',
      },
    ]);
  }
  return { ...whole, sources: [path, printer] };
}

/** A job file with every reading understood, ready for the pipeline. Throws `RefusedFile`. */
export async function openPrepared(
  path: string,
  families: readonly Family[],
): Promise<{ readonly prepared: Prepared; readonly sources: readonly string[] }> {
  const { job, family, sources } = await openJob(path, families);
  return { prepared: blaming(path, () => prepare(job, family)), sources };
}
