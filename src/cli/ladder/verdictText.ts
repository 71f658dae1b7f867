import type { FeltShift } from '../../fit/felt.ts';
import type { FeltVerdict } from '../../fit/feltRecord.ts';
import { feltRemarks, feltSentence, spoken } from '../../job/feltWords.ts';
import type { LadderLesson } from '../../job/ladderLesson.ts';
import { lessonText } from '../../job/lessonText.ts';
import type { LadderRecord } from '../../job/schema.ts';
import { formatNumber } from '../../units/index.ts';
import { type Looks, wrapped } from '../terminal.ts';
import { percent } from '../verdict.ts';

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

/** A verdict for a person at the bench: what it says of the machine, what changes, who learnt from it, what next. */
export function verdictText(told: VerdictTold, { paint, width }: Looks): readonly string[] {
  const lines = (lead: string, text: string, colour = (plain: string) => plain): string[] =>
    wrapped(text, width - lead.length).map((line, k) =>
      k === 0 ? colour(lead) + line : ' '.repeat(lead.length) + line,
    );
  return [
    `${paint.bold(told.title)} - ladder of ${told.group} - ${spoken(told.felt)}`,
    ...lines('  felt      ', feltSentence(told.shift, told.record)),
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
}: Pick<VerdictTold, 'felt' | 'record' | 'shift' | 'job' | 'group'>): readonly string[] {
  return feltRemarks(felt, record, shift, `"fettle ladder ${job} ${group}" draws another`);
}
