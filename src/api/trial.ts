import { currentTrial } from '../job/inspection/currentTrial.ts';
import { feltOf, feltWord, feltWords } from '../job/inspection/feltWord.ts';
import { inspect as inspected } from '../job/inspection/inspection.ts';
import { meetingsOf } from '../job/inspection/meetings.ts';
import { meetingsNamed } from '../job/inspection/meetingsNamed.ts';
import { lessonText } from '../job/lessonText.ts';
import { type Prepared, prepare } from '../job/prepare.ts';
import { type Problem, Refused } from '../job/problem.ts';
import type { JobFile } from '../job/schema.ts';
import { trialOutcome } from '../job/trial/trialOutcome.ts';
import { saidOf } from '../job/trial/trialSaid.ts';
import { type FileTrial, withRecord } from '../job/trial/withRecord.ts';
import type { FeltWord, TrialRecord } from '../job/trialSchema.ts';
import { shown } from '../job/zodProblems.ts';
import type { PrinterProfile } from '../printer/types.ts';
import { dayOf } from './day.ts';
import { innerOf, prepared } from './inner.ts';
import type { PrintOptions } from './inspect.ts';
import type { OpenJob } from './openedJob.ts';

/** What a person says of a print that was tried on the machine. */
export interface PrintFelt {
  /** How each place felt, by interface or group: tight, right, loose; of a step also short or long. */
  readonly felt?: Readonly<Record<string, string>>;
  /** Interfaces that were filed or drilled before it was tried. */
  readonly reworked?: readonly string[];
  /** What broke, in the words of a bench, up to 200 letters each. */
  readonly broken?: readonly string[];
  readonly note?: string;
}

/** What a print that was tried taught job and printer. */
export interface TrialTaught {
  /** The job with the print on record; and with the printer as it is now where the job holds its profile. */
  readonly job: JobFile;
  /** The printer's profile with what it learnt, to be kept where that lies in a file of its own; null: it learnt nothing. */
  readonly printer: PrinterProfile | null;
  /** What it learnt, or why nothing. */
  readonly lesson: string;
  /** Sizes of this print and of the next, mm. */
  readonly sizes: readonly {
    readonly id: string;
    readonly name: string;
    readonly before: number;
    readonly after: number;
    /** Why, where it changes; no full stop. */
    readonly because: string | undefined;
  }[];
  /** Chance that this print fits, and that the next one will, 0 to 1; null: not known. */
  readonly chance: { readonly before: number | null; readonly after: number | null };
}

/** Puts on record how a print felt; the next `make` of the job given back has learnt from it. A word once said of a print
 *  stays. Throws `Refused` as `check` does, and with every place that there is not and every word that is none. */
export function recordTrial(
  job: OpenJob,
  said: PrintFelt,
  { date, ...which }: PrintOptions = {},
): TrialTaught {
  const understood = prepared(job);
  const { record, index } = currentTrial(understood, dayOf(date), which);
  const judged = saidOf(record, {
    felt: feltIn(understood, record, said.felt ?? {}),
    reworked: (said.reworked ?? []).flatMap((name) =>
      meetingsNamed(name, meetingsOf(understood), 'reworked'),
    ),
    broken: said.broken ?? [],
    note: said.note,
  });
  const { record: taught, lesson, sizes, chance } = trialOutcome(understood, judged, index);
  const learnt = lesson?.learnt ? lesson.after : undefined;
  const file = withRecord(job.file, taught, index, () => taught as FileTrial);
  const inJob = typeof file.printer === 'object';
  const whole = inJob && learnt ? ({ ...file, printer: learnt } as JobFile) : file;
  const { job: parsed, family } = innerOf(job);
  prepare({ ...parsed, trials: whole.trials as never }, family);
  return { job: whole, printer: learnt ?? null, lesson: lessonText(lesson, 'print'), sizes, chance };
}

function feltIn(
  understood: Prepared,
  record: TrialRecord,
  said: Readonly<Record<string, string>>,
): Readonly<Record<string, FeltWord>> {
  const meetings = meetingsOf(understood);
  const read = Object.fromEntries(
    inspected(understood, record).sizes.map(({ id, clearance }) => [id, clearance] as const),
  );
  const felt: Record<string, FeltWord> = {};
  const problems: Problem[] = [];
  for (const [name, typed] of Object.entries(said)) {
    const ids = meetingsNamed(name, meetings, `felt.${name}`);
    const kinds = meetings.filter(({ id }) => ids.includes(id)).map(({ one }) => one.kind);
    const word = kinds.map((kind) => feltWord(typed, kind)).find((each) => each !== undefined);
    const about = word === undefined ? [] : feltOf(ids, word, meetings, record, read);
    if (word === undefined || about.length === 0)
      problems.push({
        ...{ code: 'felt_unknown', field: `felt.${name}`, value: shown(typed) },
        allowed: [...new Set(kinds.flatMap((kind) => feltWords(kind)))].join(', '),
      });
    for (const id of about) {
      const before = felt[id] ?? record.felt?.[id];
      if (before !== undefined && before !== word)
        problems.push({
          ...{ code: 'felt_twice', field: `felt.${id}`, value: `${before} and ${word}` },
          allowed: 'one word for each interface',
        });
      felt[id] = word!;
    }
  }
  if (problems.length > 0) throw new Refused(problems);
  return felt;
}
