import type { Finding } from '../check/finding.ts';
import type { MakeResult, ReportedInterface } from '../job/result.ts';
import {
  clearanceWindow,
  countFindings,
  day,
  findingsSum,
  GOOD_CHANCE,
  measured,
  percent,
  significant,
} from '../output/words/index.ts';
import { formatNumber } from '../units/index.ts';
import { columns, type Looks, wrapped } from './terminal.ts';

export { GOOD_CHANCE, percent };

/** Verdicts by shape first, so that they can be told apart without colour. */
const MARK = { caution: '/!\\', fails: ' X ' } as const;

/** Contributors named beside the chance; the others are small and would only hide them. */
const NAMED_SHARES = 3;

/** The result for a person at the bench, line by line: whether it will fit, what that rests on, what is wrong and what
 *  to do next. `files` are the paths written, empty when nothing was. */
export function verdict(
  result: Omit<MakeResult, 'parts'>,
  files: readonly string[],
  looks: Looks,
): readonly string[] {
  return [
    title(result, looks),
    ...chanceLines(result, looks),
    ...meetings(result.interfaces, looks),
    ...changedLines(result, looks),
    ...findingLines(result.findings, looks),
    printLine(result),
    ...assemblyLines(result, looks),
    ...cautionLines(result, looks),
    ...files.map((path) => `  wrote ${path}`),
  ];
}

function title({ job }: Pick<MakeResult, 'job'>, { paint }: Looks): string {
  const calibrated = job.calibrated === null ? 'not calibrated' : `calibrated ${day(job.calibrated)}`;
  // The profile everybody starts with says so in its name.
  const told = /calibrated/.test(job.printer) ? '' : ` (${calibrated})`;
  return `${paint.bold(job.title)} - ${job.quantity} off - ${job.material}, ${job.printer}${told}`;
}

function chanceLines(
  { chance, shares, advice, changed = [] }: Omit<MakeResult, 'parts'>,
  { paint, width }: Looks,
): readonly string[] {
  if (chance === null) return ['  fits first time  not known: nothing was measured that it meets'];
  const colour = chance >= GOOD_CHANCE ? paint.green : paint.yellow;
  // Once a print was tried, the first time is over.
  const when = changed.length > 0 ? 'fits next time ' : 'fits first time';
  const lead = `  ${when}  ${percent(chance).padEnd(8)}`;
  const indent = ' '.repeat(lead.length);
  const named = shares.filter(({ share }) => share >= 0.005).slice(0, NAMED_SHARES);
  const doubt = named.map(({ label, share }) => `${label} ${percent(share)}`).join('; ');
  const told = [
    ...(doubt === '' ? [] : wrapped(`doubt: ${doubt}`, width - lead.length)),
    ...(advice === null
      ? []
      : wrapped(`next: ${advice.sentence} -> ${percent(advice.to)}`, width - lead.length)),
  ];
  const first = lead.replace(percent(chance), colour(paint.bold(percent(chance))));
  const [beside = '', ...below] = told;
  return [`${first}${beside}`.trimEnd(), ...below.map((line) => indent + line)];
}

function meetings(interfaces: readonly ReportedInterface[], { paint, width }: Looks): readonly string[] {
  if (interfaces.length === 0) return [];
  const head = ['meets (mm)', 'machine', 'draw', 'prints at', 'clearance', 'window', 'chance'];
  const rows = interfaces.map((each) => [
    each.name,
    formatNumber(each.host),
    formatNumber(each.drawn),
    formatNumber(each.predicted),
    formatNumber(each.clearance),
    clearanceWindow(each.window),
    percent(each.chance),
  ]);
  const narrow = columns([head, ...rows])[0]!.length + 2 > width;
  // On a phone the two numbers a person needs at the slicer and at the bench go first; the rest is in the file.
  const kept = narrow ? [0, 1, 2, 6] : [0, 1, 2, 3, 4, 5, 6];
  const [first, ...rest] = columns([head, ...rows].map((row) => kept.map((k) => row[k]!)));
  return [paint.dim(`  ${first}`), ...rest.map((line) => `  ${line}`)];
}

/** Changes from which a size is shown by itself with the reason, mm. */
const SHOWN_CHANGE = 0.02;

/** What earlier prints changed: sizes that moved clearly with the reason below, the others counted. */
function changedLines(
  { changed = [] }: Omit<MakeResult, 'parts'>,
  { paint, width }: Looks,
): readonly string[] {
  const moved = ({ before, after }: { before: number; after: number }) => Math.abs(after - before);
  const largest = Math.max(...changed.map(moved));
  const clear = changed.filter((one) => moved(one) >= Math.min(SHOWN_CHANGE, largest));
  const lead = '  changed   ';
  const indent = ' '.repeat(lead.length);
  const told = clear.flatMap(({ name, before, after, because }) => [
    ...wrapped(
      `${name}: draw ${formatNumber(after)} instead of ${formatNumber(before)}`,
      width - lead.length,
    ),
    ...wrapped(because, width - lead.length - 2).map((line) => paint.dim(`  ${line}`)),
  ]);
  const others = changed.length - clear.length;
  const rest =
    others === 0 ? [] : [`${others} other size${others === 1 ? '' : 's'} by less than ${SHOWN_CHANGE}`];
  return [...told, ...rest].map((line, k) => (k === 0 ? lead : indent) + line);
}

function findingLines(findings: readonly Finding[], looks: Looks): readonly string[] {
  const sum = findingsSum(countFindings(findings)).replace(/\d+ fails?$/, looks.paint.red);
  // The number of a finding is its place in the list, the same one in every view of the result.
  const numbered = findings.map((finding, k) => ({ finding, number: k + 1 }));
  const grave = (['fails', 'caution'] as const).flatMap((verdict) =>
    numbered.filter(({ finding }) => finding.verdict === verdict),
  );
  return [
    `  findings  ${sum}`,
    ...grave.flatMap(({ finding, number }) => findingText(finding, number, looks)),
  ];
}

function findingText(finding: Finding, number: number, { paint, width }: Looks): readonly string[] {
  const fails = finding.verdict === 'fails';
  const colour = fails ? paint.red : paint.yellow;
  const lead = `  ${fails ? MARK.fails : MARK.caution} ${String(number).padStart(2)}  `;
  const lines = wrapped(
    `${finding.title} ${measured(finding)}; ${finding.because}`.replace(/ +;/, ';'),
    width - lead.length,
  );
  const remedy = finding.remedy === '' ? [] : wrapped(`do: ${finding.remedy}`, width - lead.length);
  return [...lines, ...remedy].map((line, k) => (k === 0 ? colour(lead) : ' '.repeat(lead.length)) + line);
}

function printLine({ print }: Omit<MakeResult, 'parts'>): string {
  const extents = print.extents.map((extent) => formatNumber(extent)).join(' x ');
  return `  print     ${print.lay}; ${extents} mm on the bed, ${print.layers} layers of ${print.layer} mm, ${significant(print.mass)} g each`;
}

function assemblyLines({ assembly }: Omit<MakeResult, 'parts'>, { width }: Looks): readonly string[] {
  if (assembly === null) return [];
  const lead = '  put in    ';
  const steps = assembly.steps.flatMap((step, k) =>
    wrapped(`${k + 1}. ${step}`, width - lead.length).map((line, n) => (n === 0 ? line : `   ${line}`)),
  );
  return [`${lead}${assembly.name}`, ...steps.map((line) => ' '.repeat(lead.length) + line)];
}

function cautionLines({ cautions }: Omit<MakeResult, 'parts'>, { paint, width }: Looks): readonly string[] {
  const lead = '  mind      ';
  return cautions.flatMap((caution) =>
    wrapped(caution, width - lead.length).map(
      (line, k) => (k === 0 ? paint.yellow(lead) : ' '.repeat(lead.length)) + line,
    ),
  );
}
