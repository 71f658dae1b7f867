import { partChance } from '../inspection/partChance.ts';
import type { Prepared } from '../prepare.ts';
import { profileHash } from '../profileHash.ts';
import type { Job } from '../schema.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { changedSince, type NextSize } from './changedSince.ts';
import { type TrialLesson, trialLesson } from './trialLesson.ts';

/** What follows from a print that was spoken of. */
export interface TrialOutcome {
  /** With what the profile learnt from it. */
  readonly record: TrialRecord;
  /** The job with that record, and the profile as it is then. */
  readonly after: Prepared;
  /** Null where the job has no profile of its own. */
  readonly lesson: TrialLesson | null;
  /** Sizes of this print against the next one's. */
  readonly sizes: readonly NextSize[];
  /** Chance that this print would fit, as it stood, and that the next one will, 0..1; null: not known. */
  readonly chance: { readonly before: number | null; readonly after: number | null };
}

/** What a record teaches printer and next print, once it stands in the job. `index`: its place there, from 0. Throws
 *  `Refused` as `plan` does. */
export function trialOutcome(prepared: Prepared, judged: TrialRecord, index: number): TrialOutcome {
  // A profile that no file and no job holds is everybody's; it does not learn.
  const own = prepared.job.printer !== undefined;
  const lesson = own ? trialLesson(prepared, judged) : null;
  const record: TrialRecord = lesson?.learnt
    ? { ...judged, learnt: { before: lesson.before, after: profileHash(lesson.after) } }
    : judged;
  const trials = [...(prepared.job.trials ?? []).slice(0, index), record];
  const printer = lesson?.learnt ? lesson.after : prepared.printer;
  const after: Prepared = { ...prepared, printer, job: { ...prepared.job, trials } as Job };
  const asMade = {
    ...prepared,
    job: {
      ...prepared.job,
      trials: prepared.job.trials?.filter(({ made, date }) => made !== record.made || date !== record.date),
    },
  } as Prepared;
  return {
    ...{ record, lesson, after },
    sizes: changedSince(after, record),
    chance: { before: partChance(asMade), after: partChance(after) },
  };
}
