import type { Family } from '../../../src/family/family.ts';
import { type BrokenAdvice, brokenAdvice } from '../../../src/job/inspection/brokenAdvice.ts';
import { currentTrial } from '../../../src/job/inspection/currentTrial.ts';
import { feltOf } from '../../../src/job/inspection/feltWord.ts';
import { inspect } from '../../../src/job/inspection/inspection.ts';
import { meetingsOf } from '../../../src/job/inspection/meetings.ts';
import { lessonText } from '../../../src/job/lessonText.ts';
import { make } from '../../../src/job/make.ts';
import { type Prepared, prepare } from '../../../src/job/prepare.ts';
import { Refused } from '../../../src/job/problem.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { changedSince, type NextSize } from '../../../src/job/trial/changedSince.ts';
import { type TakenBack, takenBack } from '../../../src/job/trial/takenBack.ts';
import { type TrialOutcome, trialOutcome } from '../../../src/job/trial/trialOutcome.ts';
import { saidOf, type TrialSaid } from '../../../src/job/trial/trialSaid.ts';
import type { FeltWord, TrialRecord } from '../../../src/job/trialSchema.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import type { Remembered } from '../../../src/remembered/remembered.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { PrintAsked } from './inspect.ts';

/** What a person says of a print on the page: how places felt, one by one or several at once. */
export interface PageSaid extends Pick<TrialSaid, 'reworked' | 'broken' | 'note'> {
  readonly felt: readonly {
    readonly name: string;
    readonly ids: readonly string[];
    readonly word: FeltWord;
  }[];
}

/** A print as it goes on record, and what follows. */
export interface TrialTold
  extends Pick<TrialOutcome, 'record' | 'sizes' | 'chance'>,
    Pick<TrialSaid, 'taken'> {
  /** Its place among the records, from 0. */
  readonly index: number;
  /** What the printer's profile learnt, or why nothing. */
  readonly lesson: string;
  /** The profile with what it learnt; null where it learnt nothing. */
  readonly learnt: PrinterProfile | null;
  readonly advice: readonly BrokenAdvice[];
}

/** What would stand on record of a print, and what it teaches. Changes nothing. Throws `Refused`. */
export function trialTold(
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  asked: PrintAsked,
  said: PageSaid,
  known?: Remembered,
): TrialTold {
  const prepared = preparedFrom(file, families);
  const { record, index } = currentTrial(prepared, asked.date, asked);
  const { felt, taken } = feltSaid(prepared, record, said);
  const judged = saidOf(record, { ...said, felt });
  const { lesson, ...outcome } = trialOutcome(prepared, judged, index);
  const findings = said.broken.length > 0 ? make(kernel, prepared, known).findings : [];
  return {
    ...{ index, taken, record: outcome.record, sizes: outcome.sizes, chance: outcome.chance },
    lesson: lessonText(lesson, 'print'),
    learnt: lesson?.learnt ? lesson.after : null,
    advice: said.broken.map((broken) => brokenAdvice(broken, findings)),
  };
}

/** What was felt, by interface: a group is taken for the size of it that was nearest to that end. */
function feltSaid(
  prepared: Prepared,
  record: TrialRecord,
  said: PageSaid,
): Pick<TrialSaid, 'felt' | 'taken'> {
  const meetings = meetingsOf(prepared);
  const read = Object.fromEntries(
    inspect(prepared, record).sizes.map(({ id, clearance }) => [id, clearance] as const),
  );
  const about = said.felt.map((one) => ({
    ...one,
    found: feltOf(one.ids, one.word, meetings, record, read),
  }));
  const endless = about.filter(({ found }) => found.length === 0);
  if (endless.length > 0)
    throw new Refused(
      endless.map(({ name, ids, word }) => ({
        code: 'felt_unknown',
        field: 'trials',
        value: word,
        allowed: `one place of it, as in ${ids[0]}`,
        reason: `(${name}) ${word} is what none of its sizes can be`,
      })),
    );
  return {
    felt: Object.fromEntries(about.flatMap(({ found, word }) => found.map((id) => [id, word]))),
    taken: about
      .filter(({ found, ids }) => found.length < ids.length)
      .map(({ name, word, found }) => ({ name, word, ids: found })),
  };
}

/** How the sizes drawn have changed since the print of that place, from 0, and why. Throws `Refused`. */
export function changesSince(families: readonly Family[], file: JobFile, index: number): readonly NextSize[] {
  const prepared = preparedFrom(file, families);
  const record = prepared.job.trials?.[index] as TrialRecord | undefined;
  return record === undefined ? [] : changedSince(prepared, record);
}

/** What was said of the last print, taken back. Throws `Refused` with what stands in the way. */
export const lastTakenBack = (families: readonly Family[], file: JobFile): TakenBack =>
  takenBack(preparedFrom(file, families), 'trials');

function preparedFrom(file: JobFile, families: readonly Family[]): Prepared {
  const { job, family } = parseJob(file, families);
  return prepare(job, family);
}
