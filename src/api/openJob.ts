import { families } from '../../parts/index.ts';
import { donorFamily } from '../job/donorFamily.ts';
import { donorStandIn } from '../job/donorStandIn.ts';
import { donorTask } from '../job/donorTask.ts';
import { type Problem, Refused } from '../job/problem.ts';
import { parseJob } from '../job/readJob.ts';
import { refusingRefit } from '../job/refusingRefit.ts';
import type { JobFile } from '../job/schema.ts';
import { shown } from '../job/zodProblems.ts';
import { lookedUp, modelIn } from './beside.ts';
import { type Inner, opened } from './inner.ts';
import { kernel } from './kernel.ts';
import type { Beside, OpenJob } from './openedJob.ts';
import { jsonOf } from './text.ts';

/** A job from the text of its file, or as a value. What the job names, a printer profile or the model it refits, is looked up in
 *  `beside`. Readings are not looked at yet. Throws `Refused` with every problem found: no JSON, another version, fields
 *  misspelt, a family there is not, something not there beside it, a model that cannot be changed as asked.
 *  @example (await openJob(newJob('spacer'))).title // => 'Spacer' */
export async function openJob(job: string | JobFile, beside: Beside = {}): Promise<OpenJob> {
  const value = typeof job === 'string' ? jsonOf(job, '') : job;
  const list = [...families, donorStandIn];
  const plain = parseJob(value, list);
  const named = plain.job.printer;
  if (typeof named !== 'string') return opened(value as JobFile, await withModel(plain, beside), beside);
  const printer = jsonOf(lookedUp(named, 'printer', beside), 'printer');
  // Read again as a whole, so that the profile meets the same schema as one written into the job.
  const whole = parseJob({ ...(value as object), printer }, list);
  if (typeof whole.job.printer === 'string')
    throw refusal({
      ...{ code: 'printer_unread', field: 'printer', value: shown(named) },
      allowed: 'a file that holds a printer profile',
    });
  return opened(value as JobFile, await withModel(whole, beside), beside);
}

/** A refit gets the family that is made of its model. */
async function withModel(parsed: Inner, beside: Beside): Promise<Inner> {
  const { job, family } = parsed;
  const { donor } = job;
  const field = 'donor';
  if (family !== donorStandIn) {
    if (donor === undefined) return parsed;
    throw refusal({
      ...{ code: 'donor_not_asked', field, value: shown(donor.file) },
      allowed: `family ${donorStandIn.id}, or no donor`,
      reason: `is nothing a ${family.title.toLowerCase()} is made from`,
    });
  }
  if (donor === undefined)
    throw refusal({
      ...{ code: 'donor_missing', field, value: '', reason: 'is missing' },
      allowed: 'the file of a model, and what to change',
    });
  const bytes = modelIn(donor.file, beside);
  const manifold = await kernel();
  return { job, family: refusingRefit(() => donorFamily(manifold, donorTask(donor, bytes, job))) };
}

const refusal = (problem: Problem): Refused => new Refused([problem]);
