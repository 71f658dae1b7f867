import type { FeltShift } from '../../fit/felt.ts';
import type { FeltVerdict } from '../../fit/feltRecord.ts';
import type { LadderLesson } from '../../job/ladderLesson.ts';
import type { LadderRecord } from '../../job/schema.ts';
import { parameterLabel } from '../../printer/parameterLabel.ts';
import { knownOf } from '../../printer/parameters.ts';
import { PARAMETERS } from '../../printer/types.ts';
import { formatNumber } from '../../units/index.ts';
import { type Looks, wrapped } from '../terminal.ts';
import { percent } from '../verdict.ts';
import { spoken } from './toldVerdict.ts';

/** A size before and after the verdict, mm. */
export interface SizeFelt {
  readonly name: string;
  readonly before: number;
  readonly after: number;
}

/** What there is to say of a verdict. */
export interface VerdictTold {
  readonly title: string;
  readonly group: string;
  readonly felt: FeltVerdict;
  readonly record: LadderRecord;
  readonly shift: FeltShift;
  readonly drawn: readonly SizeFelt[];
  /** Chance of the part, 0..1. */
  readonly chance: { readonly before: number; readonly after: number };
  /** Null where the job has no profile of its own. */
  readonly lesson: LadderLesson | null;
  /** As typed on the command line. */
  readonly job: string;
  readonly files: readonly string[];
}

/** Coverage factor for about 95 %. */
const K = 2;
/** A shift this many standard uncertainties of the prior away is unlikely. */
const UNLIKELY = 2;

/** A verdict for a person at the bench: what it says of the machine, what changes, who learnt from it, what next. */
export function verdictText(told: VerdictTold, { paint, width }: Looks): readonly string[] {
  const { shift, u } = told.shift;
  const lines = (lead: string, text: string, colour = (plain: string) => plain): string[] =>
    wrapped(text, width - lead.length).map((line, k) =>
      k === 0 ? colour(lead) + line : ' '.repeat(lead.length) + line,
    );
  const size = formatNumber(Math.abs(shift), u);
  const more = Number(size) === 0 ? 'as much room as' : `${size} mm ${shift > 0 ? 'more' : 'less'} room than`;
  return [
    `${paint.bold(told.title)} - ladder of ${told.group} - ${spoken(told.felt)}`,
    ...lines(
      '  felt      ',
      `the print leaves ${more} expected, +- ${formatNumber(K * u, u)} mm (expected to +- ${formatNumber(K * told.record.doubt.u, u)} before)`,
    ),
    ...remarksOf(told).flatMap((remark) => lines('  /!\\       ', remark, paint.yellow)),
    ...told.drawn.flatMap(({ name, before, after }) =>
      lines('  draw      ', `${name} ${formatNumber(before)} -> ${formatNumber(after)}`),
    ),
    ...lines('  fits      ', `${percent(told.chance.before)} -> ${percent(told.chance.after)} first time`),
    ...lines('  printer   ', lessonOf(told.lesson)),
    ...lines('  next      ', `fettle make ${told.job} --out out`),
    ...told.files.map((path) => `  wrote ${path}`),
  ];
}

/** What is doubtful about a verdict, each a sentence. */
export function remarksOf({
  felt,
  record,
  shift,
  job,
  group,
}: Pick<VerdictTold, 'felt' | 'record' | 'shift' | 'job' | 'group'>): string[] {
  const count = record.rungs.length;
  const told = felt.tight.length + felt.right.length + felt.loose.length;
  const right = [...felt.right, ...(felt.best === undefined ? [] : [felt.best])];
  const atEnd = told === 0 && (felt.best === 1 || felt.best === count);
  return [
    ...(Math.abs(shift.shift) > UNLIKELY * record.doubt.u
      ? [
          `that is far from what was expected: was it this printer's strip, with number 1 at the tight end, and the right place on the machine?`,
        ]
      : []),
    ...(shift.inOrder
      ? []
      : ['the numbers are not in order, tight before right before loose; was one of them stringy or dirty?']),
    ...(atEnd || (told > 0 && right.length === 0)
      ? [
          `the best may lie beyond the ladder or between its numbers; "fettle ladder ${job} ${group}" draws another about what was felt`,
        ]
      : []),
  ];
}

/** Changes of a parameter below this part of its doubt are not worth a line. */
const WORTH_SAYING = 0.05;

function lessonOf(lesson: LadderLesson | null): string {
  if (lesson === null) return 'this job names no printer profile, so nothing but this part learns from it';
  if (!lesson.learnt) return unlearnt[lesson.because];
  const { before, after } = lesson;
  const changes = PARAMETERS.flatMap((parameter) => {
    const [was, now] = [knownOf(before, parameter), knownOf(after, parameter)];
    if (Math.abs(now.value - was.value) <= WORTH_SAYING * was.u) return [];
    const label = parameterLabel[parameter].replace(/^printer, /, '');
    return [`${label} ${formatNumber(was.value, was.u)} -> ${formatNumber(now.value, now.u)}`];
  });
  return `${after.name} has learnt: ${changes.length === 0 ? 'it is as it was thought to be, and better known' : changes.join(', ')}`;
}

const unlearnt = {
  'another-printer':
    'the ladder was drawn for another printer, material or layer height, so the profile stays as it is',
  'says-nothing': 'the verdict says nothing about the printer, so the profile stays as it is',
  'changed-since':
    'the profile has learnt from an earlier verdict on this ladder and has changed since, so it stays as it is',
  'out-of-range': 'what follows for the printer is beyond what a printer does, so the profile stays as it is',
} as const;
