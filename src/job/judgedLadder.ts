import { type FeltShift, feltShift } from '../fit/felt.ts';
import { type FeltVerdict, steppedOf } from '../fit/feltRecord.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { type LadderLesson, ladderLesson, profileHash } from './ladderLesson.ts';
import { plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import type { Job, LadderRecord } from './schema.ts';

/** What a verdict on a ladder comes to. */
export interface JudgedLadder {
  /** The ladder with the verdict in it, for the job. */
  readonly record: LadderRecord;
  /** What the printer's profile learnt, or why nothing; null: the job has no profile of its own, and one that is
   *  everybody's does not learn. */
  readonly lesson: LadderLesson | null;
  /** The profile as it is now, where it has learnt. */
  readonly learnt: PrinterProfile | undefined;
  readonly shift: FeltShift;
  /** Sizes of what was felt as drawn before and now, mm. */
  readonly drawn: readonly {
    readonly id: string;
    readonly name: string;
    readonly before: number;
    readonly after: number;
  }[];
  /** Chance of the part, 0..1. */
  readonly chance: { readonly before: number; readonly after: number };
}

/** Takes a verdict on a printed ladder. `prepared` is the part that it copies, and `printed` the ladder as the job remembers
 *  it. Throws `Refused` where the part cannot be drawn. */
export function judgedLadder(
  prepared: Prepared,
  group: string,
  printed: LadderRecord,
  felt: FeltVerdict,
): JudgedLadder {
  const own = prepared.job.printer !== undefined;
  const { felt: _, ...unjudged } = printed;
  const judged: LadderRecord = { ...unjudged, felt };
  const lesson: LadderLesson | null = own ? ladderLesson(prepared, judged) : null;
  const record: LadderRecord = lesson?.learnt
    ? { ...judged, learnt: { before: lesson.before, after: profileHash(lesson.after) } }
    : judged;
  const after: Prepared = {
    ...prepared,
    ...(lesson?.learnt && { printer: lesson.after }),
    job: { ...prepared.job, ladders: { ...prepared.job.ladders, [group]: record } } as Job,
  };
  const [was, is] = [plan(prepared), plan(after)];
  return {
    record,
    lesson,
    learnt: lesson?.learnt ? lesson.after : undefined,
    shift: feltShift(record),
    drawn: steppedOf(record).map((id) => ({
      id,
      name: is.interfaces.find((one) => one.id === id)?.name ?? id,
      before: was.drawn[id]!,
      after: is.drawn[id]!,
    })),
    chance: { before: was.chance.part, after: is.chance.part },
  };
}
