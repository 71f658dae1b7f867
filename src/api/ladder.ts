import { drawnLadder } from '../job/drawnLadder.ts';
import { canBeMeant, feltRemarks, MEANT, spoken } from '../job/feltWords.ts';
import { judgedLadder } from '../job/judgedLadder.ts';
import { ladderPart } from '../job/ladderGroup.ts';
import { type Problem, Refused } from '../job/problem.ts';
import type { JobFile, LadderRecord } from '../job/schema.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { dayOf } from './day.ts';
import { baseOf, prepared } from './inner.ts';
import { kernel } from './kernel.ts';
import type { OpenJob } from './openedJob.ts';

/** How a ladder climbs, and what its files are called. */
export interface LadderOptions {
  /** Copies on the strip, 3 to 15; 7 unless told. */
  readonly rungs?: number;
  /** Clearance from one to the next, mm, 0.01 to 1; a third of the window unless told. */
  readonly step?: number;
  /** Day on which it is drawn, YYYY-MM-DD; today unless told. */
  readonly date?: string;
  readonly name?: string;
}

/** One copy of the interface on the strip of a ladder. */
export interface LadderRung {
  /** As it stands on the strip; 1 is the tightest. */
  readonly number: number;
  /** Expected clearance and drawn size, by interface of the group, mm. */
  readonly clearance: Readonly<Record<string, number>>;
  readonly drawn: Readonly<Record<string, number>>;
}

/** A strip with copies of one interface in steps of clearance. */
export interface DrawnLadder {
  /** The job, which remembers the numbers. */
  readonly job: JobFile;
  readonly group: string;
  /** mm. */
  readonly step: number;
  readonly rungs: readonly LadderRung[];
  /** False where numbers are to be cut off the strip before they are tried. */
  readonly free: boolean;
  readonly files: readonly {
    readonly name: string;
    readonly kind: 'stl' | 'png';
    readonly bytes: Uint8Array<ArrayBuffer>;
  }[];
}

/** Draws copies of one interface of a part, or of a group of them (`socket` for `socket.width` and `socket.length`), in
 *  steps of clearance, to find the one that feels right. Throws `Refused`: as `check`, for an interface there is not, for
 *  options out of range, for a strip longer than the bed. */
export async function ladder(job: OpenJob, name: string, options: LadderOptions = {}): Promise<DrawnLadder> {
  const { rungs, step, date, name: called } = options;
  const drawn = drawnLadder(await kernel(), prepared(job), name, {
    ...{ rungs, step, base: baseOf(job, called), date: dayOf(date) },
  });
  const { group, step: by, rungs: numbers, free } = drawn.ladder;
  return {
    ...{ group, step: by, rungs: numbers, free, files: drawn.files },
    job: withLadder(job.file, group, drawn.record),
  };
}

/** What a verdict on a ladder comes to. */
export interface FeltLadder {
  /** The job with the verdict in it; and with the printer as it is now where the job holds its profile. */
  readonly job: JobFile;
  /** The printer's profile with what it learnt, to be kept where that lies in a file of its own; null: it learnt nothing. */
  readonly printer: PrinterProfile | null;
  /** By how much there is more room than was expected, with its standard uncertainty, mm. */
  readonly shift: { readonly value: number; readonly u: number };
  /** What is doubtful about it. */
  readonly remarks: readonly string[];
  /** Chance of the part, 0 to 1. */
  readonly chance: { readonly before: number; readonly after: number };
}

/** Takes what was felt of the numbers of a ladder that the job remembers: `best` alone, or lists. Throws `Refused`: no such
 *  ladder, a number it has not, a verdict that nobody can mean. */
export function feltLadder(
  job: OpenJob,
  name: string,
  felt: {
    readonly best?: number;
    readonly tight?: readonly number[];
    readonly right?: readonly number[];
    readonly loose?: readonly number[];
  },
): FeltLadder {
  const { prepared: part, group } = ladderPart(prepared(job), name);
  const ladders = part.job.ladders ?? {};
  const printed = Object.hasOwn(ladders, group) ? ladders[group] : undefined;
  if (!printed)
    throw refusal('ladder_not_printed', `ladders.${group}`, '', 'a ladder of it that was drawn before');
  const { tight = [], right = [], loose = [], best } = felt;
  const verdict = { tight, right, loose, ...(best !== undefined && { best }) };
  const count = printed.rungs.length;
  const numbers = [...tight, ...right, ...loose, ...(best === undefined ? [] : [best])];
  const wrong = numbers.filter((each) => !(Number.isInteger(each) && each >= 1 && each <= count));
  if (wrong.length > 0 || numbers.length === 0)
    throw refusal('rung_unknown', 'felt', wrong.join(', ') || 'nothing', `numbers from 1 to ${count}`);
  if (!canBeMeant(printed, verdict)) throw refusal('verdict_contradictory', 'felt', spoken(verdict), MEANT);
  const { record, learnt, shift, chance } = judgedLadder(part, group, printed, verdict);
  const file = withLadder(job.file, group, record);
  const inJob = typeof file.printer === 'object';
  return {
    job: inJob && learnt ? ({ ...file, printer: learnt } as JobFile) : file,
    printer: learnt ?? null,
    shift: { value: shift.shift, u: shift.u },
    remarks: feltRemarks(verdict, record, shift, 'another ladder'),
    chance,
  };
}

const refusal = (code: string, field: string, value: string, allowed: string): Refused =>
  new Refused([{ code, field, value, allowed } satisfies Problem]);

const withLadder = (file: JobFile, group: string, record: LadderRecord): JobFile =>
  ({ ...file, ladders: { ...file.ladders, [group]: record } }) as JobFile;
