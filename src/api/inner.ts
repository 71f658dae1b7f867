import type { Family } from '../family/family.ts';
import { fileBase } from '../job/fileBase.ts';
import { jobHash } from '../job/jobHash.ts';
import { type Prepared, prepare } from '../job/prepare.ts';
import type { Job, JobFile } from '../job/schema.ts';
import type { Beside, OpenJob } from './openedJob.ts';

/** What an open job holds that is no business of whoever opened it. */
export interface Inner {
  readonly job: Job;
  readonly family: Family;
}

const inners = new WeakMap<OpenJob, Inner>();

/** An open job around what was understood of it. */
export function opened(file: JobFile, inner: Inner, beside: Beside): OpenJob {
  const { job, family } = inner;
  const open: OpenJob = Object.freeze({
    ...{ file, beside, family: family.id, quantity: job.quantity },
    ...{ title: job.title ?? family.title, hash: jobHash(job, family.model) },
  });
  inners.set(open, inner);
  return open;
}

/** Throws `RangeError` for what is no job that `openJob` gave, as a copy of one. */
export function innerOf(job: OpenJob): Inner {
  const inner = inners.get(job);
  if (inner) return inner;
  throw new RangeError('a job as openJob gives it is required, and no copy of one');
}

/** The job with its readings understood. Throws `Refused` with every problem of them. */
export function prepared(open: OpenJob): Prepared {
  const { job, family } = innerOf(open);
  return prepare(job, family);
}

/** What the names of a job's files begin with: the name given, or its title. */
export const baseOf = ({ file, family }: OpenJob, name: string | undefined): string =>
  fileBase(name ?? `${fileBase(file.title ?? '', family)}.job.json`, family);
