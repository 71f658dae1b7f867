import { dirname, isAbsolute, join } from 'node:path';
import type { Family } from '../family/family.ts';
import { parseJson } from '../job/parseJson.ts';
import { type Prepared, prepare } from '../job/prepare.ts';
import type { Problem } from '../job/problem.ts';
import { parseJob } from '../job/readJob.ts';
import type { Job } from '../job/schema.ts';
import { readTextFile } from './readTextFile.ts';
import { blaming, RefusedFile } from './refusedFile.ts';

/** A job file, read and of the right form; nothing is said yet about its readings. */
export interface OpenJob {
  readonly job: Job;
  readonly family: Family;
  /** Files that went into it, as paths: none of them may be written over. */
  readonly sources: readonly string[];
}

const A_JOB = 'a job file, as "fettle new" writes it';
const A_PRINTER = 'the name of a printer profile beside the job, or in a folder below it';

/** Reads a job file and, where it names one, the printer profile beside it.
 *  Throws `RefusedFile` with every problem found. */
export async function openJob(path: string, families: readonly Family[]): Promise<OpenJob> {
  const value = await readJson(path, path, '', A_JOB);
  const { job, family } = blaming(path, () => parseJob(value, families));
  if (typeof job.printer !== 'string') return { job, family, sources: [path] };

  const printer = besideJob(path, job.printer);
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

/** Value of a JSON file; whatever is wrong with it is a problem of `blamed`. */
export async function readJson(blamed: string, path: string, field: string, what: string): Promise<unknown> {
  const text = await readTextFile(path, { field, what });
  if (typeof text !== 'string') throw new RefusedFile(blamed, [text]);
  const parsed = parseJson(text, field);
  if (!('json' in parsed)) throw new RefusedFile(blamed, [parsed]);
  return parsed.json;
}

/** A job travels between machines, so the profile it names lies with it and nowhere else. */
function besideJob(job: string, name: string): string {
  const steps = name.split(/[/\\]/);
  if (
    name === '' ||
    name.includes('\0') ||
    isAbsolute(name) ||
    /^[a-z]:/i.test(name) ||
    steps.includes('..')
  ) {
    const problem: Problem = {
      code: 'printer_elsewhere',
      field: 'printer',
      value: JSON.stringify(name),
      allowed: A_PRINTER,
    };
    throw new RefusedFile(job, [problem]);
  }
  return join(dirname(job), ...steps);
}
