import type { FeltShift } from '../../fit/felt.ts';
import type { FeltVerdict } from '../../fit/feltRecord.ts';
import type { LadderLesson } from '../../job/ladderLesson.ts';
import { lessonText } from '../../job/lessonText.ts';
import type { LadderRecord } from '../../job/schema.ts';
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
    ...lines('  printer   ', lessonText(told.lesson, 'ladder')),
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
