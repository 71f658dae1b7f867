import type { InspectedSize, InspectionVerdict } from '../../../src/job/inspection/inspection.ts';
import type { NextAfterInspection } from '../../../src/job/inspection/nextAfterInspection.ts';
import type { JudgedSize, PlaceFacts, PrintFacts } from '../../../src/job/inspection/printFacts.ts';
import { greatestShown, leastShown } from '../../../src/output/report/printLimits.ts';
import { day } from '../../../src/output/words/index.ts';
import { figure, type JobUnit } from '../measure/figures.ts';

/** Where one size of a print stands, in a word or two. */
export const verdictWords: Readonly<Record<InspectionVerdict, string>> = {
  pass: 'fits',
  close: 'close',
  rework: 'rework',
  reprint: 'print again',
};

/** The word for one size; a reading that is doubtful comes before what it says. */
export const verdictWord = ({
  verdict,
  cause,
  stale,
}: Pick<InspectedSize, 'verdict' | 'cause' | 'stale'>): string =>
  stale || (cause === 'reading' && verdict !== 'pass') ? readAgain : verdictWords[verdict];

/** The shape that goes with that word. */
export const markedAs = (size: Pick<InspectedSize, 'verdict' | 'cause' | 'stale'>): InspectionVerdict =>
  verdictWord(size) === readAgain ? 'close' : size.verdict;

const readAgain = 'read again';

/** The print as a whole, by the gravest of its sizes. */
export function printHeadline({
  verdict,
  unread,
  sizes,
}: Pick<PrintFacts, 'verdict' | 'unread' | 'sizes'>): string {
  const rest = unread.length > 0 ? `, ${unread.length} of ${unread.length + sizes.length} not read yet` : '';
  if (verdict === null) return 'Nothing is read of it yet.';
  if (sizes.some((size) => verdictWord(size) === readAgain)) return `Something is to be read again${rest}.`;
  return `${headlines[verdict]}${rest}.`;
}

const headlines: Readonly<Record<InspectionVerdict, string>> = {
  pass: 'As far as callipers tell, it fits',
  close: 'It should fit, but not surely',
  rework: 'It can be made to fit',
  reprint: 'It is to be printed again',
};

/** Which print lies on the bench.
 *  @example whichWords({ index: 0, isNew: true, changed: false, record }) // => 'Print 1, as it is drawn now.' */
export function whichWords({
  index,
  isNew,
  changed,
  record,
}: Pick<PrintFacts, 'index' | 'isNew' | 'changed' | 'record'>): string {
  if (!isNew) return `Print ${index + 1}, first spoken of on ${day(record.date)}.`;
  const fresh = `Print ${index + 1}, as it is drawn now.`;
  return changed
    ? `${fresh} The job has changed since print ${index} was read, so this is taken for another.`
    : fresh;
}

/** What the callipers should show: "should show 3.94, fits 3.87 to 4.02 mm"; an end that the window has not is left out. */
export function shouldRead(
  { expected, limits: [from, to] }: Pick<PlaceFacts, 'expected' | 'limits'>,
  unit: JobUnit,
): string {
  const shown = (size: number) => figure(size, 'mm', unit);
  // In inches a hundredth of a mm is less than what is shown.
  const [least, most] = unit === 'in' ? [from, to] : [from && leastShown(from), to && greatestShown(to)];
  const fits =
    least !== null && most !== null
      ? `fits ${shown(least)} to ${shown(most)}`
      : least !== null
        ? `fits ${shown(least)} and up`
        : most !== null
          ? `fits up to ${shown(most)}`
          : 'has no limits';
  return `should show ${shown(expected)}, ${fits} ${unit}`;
}

/** A step after reading, in the words of the page: what to do, and what its button says. */
export interface StepWords {
  readonly words: string;
  readonly deed: string;
}

/** Words for a step; `nameOf` an interface of the print, `sizes` tell what a reading of the machine is called. */
export function stepWords(
  step: NextAfterInspection,
  nameOf: (id: string) => string,
  sizes: readonly Pick<JudgedSize, 'clearance'>[],
): StepWords {
  const names = 'ids' in step ? listed(step.ids.map(nameOf)) : '';
  switch (step.kind) {
    case 'read':
      return {
        words: 'Read each place with the callipers, before the print goes near the machine.',
        deed: 'begin',
      };
    case 'measure':
      return { words: 'Nothing it meets has been measured yet.', deed: 'measure the machine' };
    case 'again':
      return { words: `Before anything else, read ${names} again.`, deed: 'read it' };
    case 'record':
      return {
        words: 'Put this print on record, untried, so that the next one is drawn better; then print again.',
        deed: 'put it on record',
      };
    case 'rework':
      return { words: `Take plastic off ${names}; then note it and read anew.`, deed: 'done, read anew' };
    case 'filed':
      return { words: `Read ${names} anew, now that plastic came off.`, deed: 'read it' };
    case 'rest':
      return { words: 'Go on with what is not read yet.', deed: 'go on' };
    case 'closer': {
      const label = sizes
        .flatMap(({ clearance }) => clearance.shares)
        .find(({ id }) => id === `reading:${step.id}`)?.label;
      return step.of === 'print'
        ? { words: `One more reading of ${nameOf(step.id)} would tell more.`, deed: 'read it' }
        : {
            words: `One more reading of ${label ?? step.id} on the machine would tell more.`,
            deed: 'read it there',
          };
    }
    case 'try':
      return {
        words: 'Try it on the machine, gently, and stop before you need force. Then say how it felt.',
        deed: 'say how it felt',
      };
  }
}

/** "a, b and c" */
export const listed = (names: readonly string[]): string =>
  [names.slice(0, -1).join(', '), names.at(-1) ?? ''].filter((part) => part !== '').join(' and ');
