import type { InspectedSize, Inspection, InspectionVerdict } from '../../job/inspection/inspection.ts';
import { driftText, printName, todoFor, whyOf } from '../../job/inspection/inspectionWords.ts';
import { type NextAfterInspection, nextAfterInspection } from '../../job/inspection/nextAfterInspection.ts';
import { reworkCautions } from '../../job/inspection/reworkCautions.ts';
import { clearanceWindow, percent } from '../../output/words/index.ts';
import { formatNumber } from '../../units/index.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';

/** What stands around a verdict on a print. */
export interface InspectionTold {
  readonly title: string;
  /** "PETG, printer 1". */
  readonly made: string;
  readonly date: string;
  /** As typed on the command line. */
  readonly job: string;
}

const WORD: Readonly<Record<InspectionVerdict, string>> = {
  pass: 'PASS',
  close: 'CLOSE',
  rework: 'REWORK',
  reprint: 'REPRINT',
};

const COVERAGE = 2;

/** A verdict on a print for a person at the bench, line by line: every size, what to do about those that do not pass and why,
 *  what explains several, what to mind, what next. */
export function inspectText(inspection: Inspection, told: InspectionTold, looks: Looks): readonly string[] {
  const { sizes, unread } = inspection;
  const lead = (label: string) => `  ${label.padEnd(8)}`;
  const lines = (label: string, text: string, colour = (plain: string) => plain): string[] =>
    wrapped(text, looks.width - lead(label).length).map((line, k) =>
      k === 0 ? colour(lead(label)) + line : ' '.repeat(lead(label).length) + line,
    );
  const drift = driftText(inspection);
  const tools = sizes.flatMap(({ rework }) => (rework === undefined ? [] : [rework.tool]));
  return [
    ...wrapped(`${told.title} - ${printName(told)} - ${told.made}`, looks.width).map((line, k) =>
      k === 0 ? looks.paint.bold(line) : line,
    ),
    ...table(sizes, looks),
    ...sizes.flatMap((size) => {
      const [todo, why] = [todoFor(size), whyOf(size, inspection.drift)];
      if (todo === '' && why === '') return [];
      return [
        ...lines(WORD[size.verdict], todo === '' ? size.name : `${size.name}: ${todo}`, tint(size, looks)),
        ...(why === '' ? [] : lines('', `why: ${why}`)),
      ];
    }),
    ...(drift === undefined ? [] : lines('/!\\', drift, looks.paint.yellow)),
    ...(unread.length === 0
      ? sizes.length > 0
        ? []
        : lines(
            'unread',
            'nothing of this part meets anything that was measured, so there is nothing to read',
          )
      : lines('unread', sizes.length === 0 ? 'every size of it' : unread.map(({ name }) => name).join(', '))),
    ...reworkCautions(tools).flatMap((caution) => lines('mind', caution, looks.paint.yellow)),
    ...nextSteps(inspection, told.job).flatMap((step) => lines('next', step)),
  ];
}

function tint({ verdict }: InspectedSize, { paint }: Looks): (text: string) => string {
  if (verdict === 'pass') return paint.green;
  return verdict === 'reprint' ? paint.red : paint.yellow;
}

function table(sizes: readonly InspectedSize[], looks: Looks): readonly string[] {
  if (sizes.length === 0) return [];
  const head = ['', 'read (mm)', 'machine', 'expected', 'print', 'clearance', 'window', 'chance'];
  const rows = sizes.map((size) => [
    WORD[size.verdict],
    size.name,
    formatNumber(size.machine),
    formatNumber(size.expected),
    formatNumber(size.print.value),
    `${formatNumber(size.clearance.value)} +- ${formatNumber(COVERAGE * size.clearance.u)}`,
    clearanceWindow(size.window),
    percent(size.clearance.inside),
  ]);
  const all = [0, 1, 2, 3, 4, 5, 6, 7];
  const choices = [all, [0, 1, 4, 5, 6, 7], [0, 1, 5, 7]];
  const laid = choices.map((kept) => columns([head, ...rows].map((row) => kept.map((k) => row[k]!))));
  // On a narrow terminal what tells least goes first; on the narrowest a name stands over its numbers.
  const fits = laid.find((each) => Math.max(...each.map(({ length }) => length)) + 2 <= looks.width);
  const paintWord = (line: string, k: number) => line.replace(/^\S+/, (word) => tint(sizes[k]!, looks)(word));
  if (fits !== undefined) {
    const [first, ...rest] = fits;
    return [looks.paint.dim(`  ${first}`), ...rest.map((line, k) => `  ${paintWord(line, k)}`)];
  }
  return rows.flatMap((row, k) => [
    `  ${paintWord(`${row[0]!.padEnd(8)}${row[1]}`, k)}`,
    `          ${row[5]} of ${row[6]}, ${row[7]}`,
  ]);
}

/** What to type next. */
export const nextSteps = (inspection: Inspection, job: string): readonly string[] =>
  nextAfterInspection(inspection).flatMap((step) => stepText(step, job));

function stepText(step: NextAfterInspection, job: string): readonly string[] {
  switch (step.kind) {
    case 'read':
      return [`fettle inspect ${job}`];
    case 'measure':
      return [`fettle measure ${job}`];
    case 'again':
      return step.ids.map((id) => `fettle inspect ${job} --only ${id}`);
    case 'record':
      return [
        `fettle trial ${job} --not-tried puts this print on record, so that the next one is drawn better; then fettle make ${job} --out out`,
      ];
    case 'rework':
      return [`when that is done: fettle inspect ${job} --reworked ${step.ids.join(',')}`];
    case 'filed':
      return [`fettle inspect ${job} --reworked ${step.ids.join(',')}`];
    case 'rest':
      return [`fettle inspect ${job} goes on with what is unread`];
    case 'closer':
      return [`fettle ${step.of === 'print' ? 'inspect' : 'measure'} ${job} --only ${step.id}`];
    case 'try':
      return [`try it on the machine, gently, and stop before you need force; then fettle trial ${job}`];
  }
}
