import type { BrokenAdvice } from '../../job/inspection/brokenAdvice.ts';
import { printName } from '../../job/inspection/inspectionWords.ts';
import type { Meeting } from '../../job/inspection/meetings.ts';
import { lessonText } from '../../job/lessonText.ts';
import { type NextSize, SHOWS } from '../../job/trial/changedSince.ts';
import { feltText } from '../../job/trial/feltText.ts';
import type { TrialLesson } from '../../job/trial/trialLesson.ts';
import type { TrialSaid } from '../../job/trial/trialSaid.ts';
import type { TrialRecord } from '../../job/trialSchema.ts';
import { percent } from '../../output/words/index.ts';
import { formatNumber } from '../../units/index.ts';
import { type Looks, wrapped } from '../terminal.ts';

/** What there is to say of a trial. */
export interface TrialTold {
  readonly title: string;
  readonly made: string;
  readonly record: TrialRecord;
  readonly said: TrialSaid;
  readonly meetings: readonly Meeting[];
  readonly sizes: readonly NextSize[];
  /** Chance that this print would fit, as it stood, and that the next one will; null: not known. */
  readonly chance: { readonly before: number | null; readonly after: number | null };
  /** Null where the job has no profile of its own. */
  readonly lesson: TrialLesson | null;
  readonly advice: readonly BrokenAdvice[];
  /** As typed on the command line. */
  readonly job: string;
  readonly files: readonly string[];
}

/** A trial for a person at the bench: what is on record now, what the next print will change and why, who learnt from it. */
export function trialText(told: TrialTold, looks: Looks): readonly string[] {
  const { record, said, meetings, sizes, chance, advice } = told;
  const lines = linesIn(looks);
  const changed = sizes.filter(({ before, after }) => Math.abs(after - before) >= SHOWS);
  const felt = feltText(record, meetings);
  return [
    ...wrapped(`${told.title} - ${printName(record)} - ${told.made}`, looks.width).map((line, k) =>
      k === 0 ? looks.paint.bold(line) : line,
    ),
    ...lines('felt', felt === '' ? 'not tried' : felt),
    ...said.taken.flatMap(({ name, word, ids }) =>
      lines(
        '',
        `${name} ${word} is taken for ${ids.join(', ')}, which was nearest to that end; name the one you know it was`,
      ),
    ),
    ...(record.reworked === undefined ? [] : lines('filed', record.reworked.join(', '))),
    ...advice.flatMap(({ broken, sentence }) =>
      lines('broken', `${broken}: ${sentence}`, looks.paint.yellow),
    ),
    ...(said.note === undefined ? [] : lines('note', said.note)),
    ...(changed.length === 0
      ? lines('next', 'is drawn as this one was')
      : changed.flatMap(({ name, before, after, because }) =>
          lines(
            'draw',
            `${name} ${formatNumber(before)} -> ${formatNumber(after)}${because === undefined ? '' : `: ${because}`}`,
          ),
        )),
    ...(chance.before === null || chance.after === null
      ? []
      : lines('fits', `${percent(chance.before)} -> ${percent(chance.after)} the next time`)),
    ...lines('printer', lessonText(told.lesson, 'print')),
    ...lines('then', `fettle make ${told.job} --out out`),
    ...told.files.map((path) => `  wrote ${path}`),
  ];
}

/** Lines with a label before the first. */
export const linesIn =
  ({ width }: Looks) =>
  (label: string, text: string, colour = (plain: string) => plain): string[] => {
    const lead = `  ${label.padEnd(9)} `;
    return wrapped(text, width - lead.length).map((line, k) =>
      k === 0 ? colour(lead) + line : ' '.repeat(lead.length) + line,
    );
  };
