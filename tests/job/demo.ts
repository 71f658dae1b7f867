import { readFileSync } from 'node:fs';
import { families } from '../../parts/index.ts';
import type { Prepared } from '../../src/job/prepare.ts';
import { type Problem, Refused } from '../../src/job/problem.ts';
import { readJob } from '../../src/job/readJob.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';

const text = readFileSync(new URL('../../parts/stabiliser-clip/demo.job.json', import.meta.url), 'utf8');

/** A job whose maps are there, so that a test may change one entry. */
export type PlainJob = Omit<JobFile, 'readings' | 'choices' | 'sizes' | 'fits' | 'printer'> & {
  readings: Record<string, (string | number)[]>;
  choices: Record<string, string>;
  sizes: Record<string, string | number>;
  fits: NonNullable<JobFile['fits']>;
  printer: PrinterProfile;
};

/** The demo job, changed; a fresh copy each time. */
export function demo(change: (job: PlainJob) => void = () => undefined): PlainJob {
  const job = { sizes: {}, fits: {}, ...JSON.parse(text) } as PlainJob;
  change(job);
  return job;
}

/** Reads a job as from its file. */
export const read = (job: unknown): Prepared => readJob(JSON.stringify(job), families);

/** What is wrong with a job; throws when nothing is. */
export function problemsIn(fileText: string): readonly Problem[] {
  try {
    readJob(fileText, families);
  } catch (error) {
    if (error instanceof Refused) return error.problems;
    throw error;
  }
  throw new RangeError('problemsIn requires a job that is refused (this one was taken)');
}

/** The demo job with a round socket. */
export function roundPost(job: PlainJob): void {
  const { socketWidth, socketLength, ...rest } = job.readings;
  job.readings = { ...rest, socketDiameter: ['4.00', '4.01', '3.99'] };
  job.choices.post = 'round';
}

/** The same content with the fields of every object in reverse order. */
export function reversed<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  const fields = Object.entries(value).reverse();
  return Object.fromEntries(fields.map(([key, inner]) => [key, reversed(inner as unknown)])) as T;
}
