import type { Family } from '../../../src/family/family.ts';
import { donorStandIn } from '../../../src/job/donorStandIn.ts';
import { plateAgreement } from '../../../src/job/plateAgreement.ts';
import { type Prepared, prepare } from '../../../src/job/prepare.ts';
import type { Problem } from '../../../src/job/problem.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { orRefused } from './refusals.ts';

/** Why each of other jobs cannot be printed along with one; nothing for those that can. Looks at what is in the jobs and makes
 *  none of them, so a rare one is only refused once it is laid; of a refit it is known then what its model says. */
export function whyNotAlong(
  families: readonly Family[],
  file: JobFile,
  others: readonly JobFile[],
): readonly (readonly Problem[])[] {
  const first = orRefused(() => printedWith(families, file));
  return others.map((other) => {
    const own = orRefused(() => printedWith(families, other));
    if ('kind' in own) return own.problems;
    return 'kind' in first ? [] : plateAgreement(own, first, 'this job');
  });
}

function printedWith(families: readonly Family[], file: JobFile): Pick<Prepared, 'printer' | 'material'> {
  const { job, family } = parseJob(file, [...families, donorStandIn]);
  if (family.id !== donorStandIn.id) return prepare(job, family);
  const { readings: _, fits: __, sizes: ___, choices: ____, ...rest } = job;
  return prepare({ ...rest, readings: {}, fits: {}, sizes: {}, choices: {} }, family);
}
