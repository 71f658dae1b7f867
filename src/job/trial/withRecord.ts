import { Refused } from '../problem.ts';
import type { JobFile } from '../schema.ts';
import type { TrialRecord } from '../trialSchema.ts';

/** A record as it stands in a job file. */
export type FileTrial = NonNullable<JobFile['trials']>[number];

/** The job with one of its records changed; where it is not there yet, `record` is put at the end and changed there. `index`
 *  from 0. Throws `Refused`: `trial_changed`, where another stands in its place. */
export function withRecord(
  job: JobFile,
  record: TrialRecord,
  index: number,
  change: (record: FileTrial) => FileTrial,
): JobFile {
  const trials = [...(job.trials ?? [])];
  const there = trials[index];
  const other = there === undefined ? trials.length !== index : there.made !== record.made;
  if (other)
    throw new Refused([
      {
        code: 'trial_changed',
        field: `trials[${index}]`,
        value: there === undefined ? `${trials.length} prints on record` : `made from ${there.made}`,
        allowed: 'the records as they were when this began',
        reason: 'somebody else has written there meanwhile',
      },
    ]);
  trials[index] = change(there ?? (record as FileTrial));
  return { ...job, trials };
}
