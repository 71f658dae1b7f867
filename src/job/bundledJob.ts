import type { Family } from '../family/family.ts';
import { donorStandIn } from './donorStandIn.ts';
import { type Problem, Refused } from './problem.ts';
import type { Bundle } from './readBundle.ts';
import { parseJob } from './readJob.ts';
import type { Job, JobFile } from './schema.ts';
import { stepsOf } from './stepsOf.ts';
import { unprintable } from './unprintable.ts';
import { shown } from './zodProblems.ts';

/** The job of a bundle. */
export interface BundledJob {
  /** As typed, naming what lies beside it. */
  readonly file: JobFile;
  /** Of the right form, the printer profile in it. The family of a refit knows nothing of its donor yet. */
  readonly job: Job;
  readonly family: Family;
}

/** Holds the job of a bundle, and the printer profile and donor it names, to their forms; readings are not looked at. Throws
 *  `Refused` with every problem found. */
export function bundledJob({ job, printer, donor }: Bundle, families: readonly Family[]): BundledJob {
  const odd = [job, printer].flatMap((file) => (file === undefined ? [] : unprintable(file.value)));
  if (odd.length > 0) throw new Refused(odd);
  const list = [...families, donorStandIn];
  const { job: plain } = parseJob(job.value, list);
  const problems: Problem[] = [];
  const missing = (field: string, name: string): void =>
    void problems.push({
      code: 'bundle_incomplete',
      field,
      value: shown(name),
      allowed: 'a file of that name in the bundle',
      reason: 'is not there',
    });
  if (typeof plain.printer === 'string' && stepsOf(plain.printer).join('/') !== printer?.path)
    missing('printer', plain.printer);
  if (plain.donor !== undefined && stepsOf(plain.donor.file).join('/') !== donor?.path)
    missing('donor.file', plain.donor.file);
  if (problems.length > 0) throw new Refused(problems);

  const named = typeof plain.printer === 'string';
  const whole = named ? { ...(job.value as object), printer: printer!.value } : job.value;
  return { file: job.value as JobFile, ...parseJob(whole, list) };
}
