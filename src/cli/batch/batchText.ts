import { duration, percent, significant } from '../../output/words/index.ts';
import { baseName } from '../fileNames.ts';
import { oneLine } from '../oneLine.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';
import { GOOD_CHANCE } from '../verdict.ts';
import { batchSummary } from './batchSummary.ts';
import { type Finished, fails, isFinished, type Outcome } from './outcome.ts';

/** As many jobs as one looks over at a glance; of more, only those are listed that somebody has to see to. */
const ALL_LISTED = 20;
const MOST_LISTED = 40;

/** Verdicts by shape first, so that they can be told apart without colour; the marks of a single job, and one for what
 *  was not made. */
const MARK = { fine: '   ', caution: '/!\\', fails: ' X ', not: ' - ' } as const;

/** What became of several jobs, for a person at the bench, line by line. `out` is the folder of their files. */
export function batchText(outcomes: readonly Outcome[], out: string, looks: Looks): readonly string[] {
  const all = outcomes.length <= ALL_LISTED;
  const listed = all ? outcomes : outcomes.filter((one) => !isFinished(one) || fails(one));
  return [
    ...title(outcomes, looks),
    ...(all ? [] : chanceLines(outcomes.filter(isFinished), looks)),
    ...table(listed.slice(0, MOST_LISTED), looks),
    ...restLines(outcomes.length - listed.length, listed.length - MOST_LISTED, looks),
    ...sumLines(outcomes, out, looks),
  ];
}

function title(outcomes: readonly Outcome[], { paint, width }: Looks): readonly string[] {
  const { jobs, made, kept, refused, broke, failing } = batchSummary(outcomes);
  const told = [
    `${jobs} job${jobs === 1 ? '' : 's'}:`,
    `${made} made,`,
    ...(kept > 0 ? [`${kept} kept as they were,`] : []),
    `${refused === 0 ? 'none' : refused} refused,`,
    ...(broke > 0 ? [`${broke} broke off,`] : []),
    failing === 0 ? 'none fails' : `${failing} with a finding that fails`,
  ].join(' ');
  return wrapped(told, width).map((line) => paint.bold(line));
}

const GROUPS = [
  { from: GOOD_CHANCE, name: `at ${percent(GOOD_CHANCE)} or more` },
  { from: 0.5, name: 'at 50 % or more' },
  { from: 0, name: 'below 50 %' },
] as const;

/** How the chances are spread, and which is the lowest: what a long list would hide. */
function chanceLines(finished: readonly Finished[], looks: Looks): readonly string[] {
  const known = finished.flatMap((one) =>
    one.result.chance === null ? [] : [{ chance: one.result.chance, name: nameOf(one) }],
  );
  if (known.length === 0) return [];
  const lowest = known.reduce((low, one) => (one.chance < low.chance ? one : low));
  const groups = GROUPS.map(({ from, name }, k) => {
    const below = GROUPS[k - 1]?.from ?? Number.POSITIVE_INFINITY;
    const within = known.filter(({ chance }) => shown(chance) >= from && shown(chance) < below);
    return { name, count: within.length };
  });
  const told = groups.filter(({ count }) => count > 0).map(({ name, count }) => `${count} ${name}`);
  return labelled(
    'chance',
    `${told.join(', ')}; the lowest is ${percent(lowest.chance)}, ${lowest.name}`,
    looks,
  );
}

/** A chance as whole per cents show it, so that what reads 95 % counts as that. */
const shown = (chance: number): number => Math.round(100 * chance) / 100;

const HEAD = ['job', 'chance', 'findings', 'mass', 'prints in', ''];
/** Columns that stay where there is little room. */
const KEPT = [0, 1, 2];
/** Where a row begins, its mark before it. */
const INDENT = '      ';
/** Columns that a reason needs to stand beside a name; otherwise it goes below. */
const ROOM_FOR_REASON = 30;

function table(outcomes: readonly Outcome[], looks: Looks): readonly string[] {
  if (outcomes.length === 0) return [];
  const names = outcomes.map(nameOf);
  const wide = columns([HEAD, ...outcomes.map((outcome, k) => [names[k]!, ...cells(outcome)])]);
  const fits = INDENT.length + Math.max(...wide.map((line) => line.length)) <= looks.width;
  const [head, ...lines] = fits ? wide : narrowTable(names, outcomes, looks.width - INDENT.length);
  const beside = fits ? Math.max(HEAD[0]!.length, ...names.map((name) => name.length)) + 2 : 0;
  const row = (outcome: Outcome, line: string): readonly string[] => {
    if (isFinished(outcome)) return [`  ${mark(outcome, looks)} ${line}`];
    const lead = `  ${looks.paint.red(MARK.not)} ${line.padEnd(beside)}`;
    const room = looks.width - INDENT.length - beside;
    if (beside > 0 && room >= ROOM_FOR_REASON) {
      const [first, ...below] = wrapped(why(outcome), room);
      return [lead + first, ...below.map((more) => INDENT + ' '.repeat(beside) + more)];
    }
    return [lead.trimEnd(), ...wrapped(why(outcome), looks.width - 8).map((more) => `        ${more}`)];
  };
  return [looks.paint.dim(INDENT + head), ...outcomes.flatMap((outcome, k) => row(outcome, lines[k]!))];
}

/** The table without what can wait, the worst finding alone, and names as long as there is room. */
function narrowTable(
  names: readonly string[],
  outcomes: readonly Outcome[],
  width: number,
): readonly string[] {
  const rest = [HEAD, ...outcomes.map((outcome) => ['', ...cells(outcome, true)])].map((row) =>
    KEPT.slice(1).map((k) => row[k]!),
  );
  const room = width - 2 - Math.max(...columns(rest).map((line) => line.length));
  const shortened = (name: string) => (name.length <= room ? name : `${name.slice(0, room - 2)}..`);
  return columns(rest.map((row, k) => [k === 0 ? HEAD[0]! : shortened(names[k - 1]!), ...row]));
}

const nameOf = ({ path }: Outcome): string => baseName(path, oneLine(path));

/** The cells of a row but the first; empty where there is nothing to tell. */
function cells(one: Outcome, brief = false): readonly string[] {
  if (!isFinished(one)) return HEAD.slice(1).map(() => '');
  const { chance, job, print } = one.result;
  return [
    chance === null ? 'unknown' : percent(chance),
    findings(one, brief),
    `${significant(job.quantity * print.mass)} g`,
    duration(one.minutes),
    one.how,
  ];
}

const count = ({ result }: Finished, verdict: 'holds' | 'caution' | 'fails'): number =>
  result.findings.filter((finding) => finding.verdict === verdict).length;

function findings(one: Finished, brief: boolean): string {
  const [failing, cautions] = [count(one, 'fails'), count(one, 'caution')];
  const told = [
    ...(failing > 0 ? [`${failing} fail${failing === 1 ? 's' : ''}`] : []),
    ...(cautions > 0 ? [`${cautions} caution${cautions === 1 ? '' : 's'}`] : []),
    `${count(one, 'holds')} hold`,
  ];
  const worst = told.slice(0, 1);
  return (brief || told.length === 1 ? worst : told.slice(0, -1)).join(', ');
}

function mark(one: Finished, { paint }: Looks): string {
  if (fails(one)) return paint.red(MARK.fails);
  const { chance } = one.result;
  const doubtful = count(one, 'caution') > 0 || (chance !== null && shown(chance) < GOOD_CHANCE);
  return doubtful ? paint.yellow(MARK.caution) : MARK.fine;
}

/** Where the first problem lies; the sentences go to the other stream, one a problem. */
function why(outcome: Exclude<Outcome, Finished>): string {
  if (outcome.how === 'broke') return `broke off: ${oneLine(outcome.why)}`;
  const [first, ...others] = outcome.problems;
  const place = oneLine(first!.field || first!.value || first!.code.replaceAll('_', ' '));
  return `refused: ${place}${others.length > 0 ? `, and ${others.length} more` : ''}`;
}

function restLines(fine: number, unlisted: number, looks: Looks): readonly string[] {
  return [
    ...(unlisted > 0 ? [`      and ${unlisted} more; --json lists them all`] : []),
    ...(fine > 0 ? wrapped(`in the other ${fine} no finding fails`, looks.width - 6) : []).map(
      (line) => `      ${line}`,
    ),
  ];
}

function sumLines(outcomes: readonly Outcome[], out: string, looks: Looks): readonly string[] {
  const { mass, minutes, made, kept } = batchSummary(outcomes);
  if (made + kept === 0) return [];
  const files = outcomes.reduce(
    (sum, one) => sum + (one.how === 'made' ? one.result.files.length + 1 : 0),
    0,
  );
  return [
    ...labelled(
      'together',
      `${significant(mass)} g of filament, about ${duration(minutes)} of printing`,
      looks,
    ),
    ...(files > 0 ? labelled('wrote', `${files} files to ${oneLine(out)}`, looks) : []),
    ...labelled('more', '"fettle check" with one of the jobs says why', looks),
  ];
}

const labelled = (label: string, text: string, { width }: Looks): readonly string[] =>
  wrapped(text, width - 12).map((line, k) => `  ${(k === 0 ? label : '').padEnd(10)}${line}`);
