import type { Family } from '../../../src/family/family.ts';
import type { FeltShift } from '../../../src/fit/felt.ts';
import type { FeltVerdict } from '../../../src/fit/feltRecord.ts';
import { drawnLadder } from '../../../src/job/drawnLadder.ts';
import { canBeMeant, feltRemarks, feltSentence, MEANT, spoken } from '../../../src/job/feltWords.ts';
import { type JudgedLadder, judgedLadder } from '../../../src/job/judgedLadder.ts';
import type { LadderRung } from '../../../src/job/ladder.ts';
import { type LadderOptions, ladderPart } from '../../../src/job/ladderGroup.ts';
import { lessonText } from '../../../src/job/lessonText.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { Refused } from '../../../src/job/problem.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile, LadderRecord } from '../../../src/job/schema.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import type { RefusedJob } from '../answers.ts';
import { baseOf } from './baseOf.ts';
import { orRefused } from './refusals.ts';
import { mediaTypes, type TakenFile } from './takeAway.ts';

/** A ladder that was drawn. */
export interface LadderFacts {
  readonly group: string;
  readonly record: LadderRecord;
  readonly rungs: readonly LadderRung[];
  /** Interfaces that step, and names of all of the group, by id. */
  readonly stepped: readonly string[];
  readonly names: Readonly<Record<string, string>>;
  /** Whether the machine reaches every rung; else they are to be cut off. */
  readonly free: boolean;
  readonly lay: string;
  readonly extents: Vec3;
  readonly layers: number;
  /** g and minutes. */
  readonly mass: number;
  readonly minutes: number;
  readonly cautions: readonly string[];
  readonly files: readonly TakenFile[];
}

/** Draws a ladder of an interface, `date` YYYY-MM-DD. */
export const ladderFacts = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  name: string,
  options: LadderOptions & { readonly date: string },
): LadderFacts | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    const whole = prepare(job, family);
    const drawn = drawnLadder(kernel, whole, name, { ...options, base: baseOf(file) });
    const { ladder, record, names, lay, mass, minutes, cautions } = drawn;
    const { group, rungs, stepped, free, extents, layers } = ladder;
    return {
      ...{ group, record, rungs, stepped, names, free, lay, extents, layers, mass, minutes, cautions },
      files: drawn.files.map(({ kind, name: called, bytes }) => ({
        ...{ name: called, bytes },
        type: kind === 'stl' ? mediaTypes.stl : 'image/png',
      })),
    };
  });

/** What a verdict on a ladder comes to, with the words for it. */
export interface JudgedFacts extends Omit<JudgedLadder, 'lesson' | 'shift'> {
  readonly shift: FeltShift;
  readonly spoken: string;
  /** What it says of the room there is. */
  readonly says: string;
  readonly remarks: readonly string[];
  /** What the printer's profile learnt, or why nothing. */
  readonly printer: string;
}

/** Takes a verdict on the ladder of a group that the job remembers. */
export const judgedFacts = (
  families: readonly Family[],
  file: JobFile,
  name: string,
  felt: FeltVerdict,
): JudgedFacts | RefusedJob =>
  orRefused(() => {
    const { job, family } = parseJob(file, families);
    const { prepared, group } = ladderPart(prepare(job, family), name);
    const ladders = prepared.job.ladders ?? {};
    const printed = Object.hasOwn(ladders, group) ? ladders[group] : undefined;
    const refuse = (code: string, value: string, allowed: string) =>
      new Refused([{ code, field: '', value, allowed }]);
    if (!printed) throw refuse('ladder_not_printed', group, 'a ladder that was drawn before');
    if (!canBeMeant(printed, felt)) throw refuse('verdict_contradictory', spoken(felt), MEANT);
    const { lesson, shift, ...judged } = judgedLadder(prepared, group, printed, felt);
    return {
      ...judged,
      shift,
      spoken: spoken(felt),
      says: feltSentence(shift, judged.record),
      remarks: feltRemarks(felt, judged.record, shift, 'a new ladder is drawn'),
      printer: lessonText(lesson, 'ladder'),
    };
  });
