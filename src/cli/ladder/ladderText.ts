import type { Ladder } from '../../job/ladder.ts';
import { printMinutesMethod } from '../../printer/printMinutes.ts';
import { formatNumber } from '../../units/index.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';

/** What the text says beside the ladder itself. */
export interface LadderTold {
  readonly title: string;
  /** "PETG, printer 1". */
  readonly made: string;
  /** Name of an interface for tables. */
  readonly nameOf: (id: string) => string;
  readonly lay: string;
  /** g and minutes. */
  readonly mass: number;
  readonly minutes: number;
  readonly cautions: readonly string[];
  /** As typed on the command line. */
  readonly job: string;
  readonly files: readonly string[];
}

/** A ladder for a person at the bench: what the rungs are, how to try them, what it costs, what to type afterwards. */
export function ladderText(ladder: Ladder, told: LadderTold, { paint, width }: Looks): readonly string[] {
  const { rungs, stepped, group, extents, layers, free } = ladder;
  const still = Object.keys(ladder.record.aim).filter((id) => !stepped.includes(id));
  const lines = (lead: string, text: string, colour = (plain: string) => plain): string[] =>
    wrapped(text, width - lead.length).map((line, k) =>
      k === 0 ? colour(lead) + line : ' '.repeat(lead.length) + line,
    );
  return [
    `${paint.bold(told.title)} - ladder of ${group} - ${told.made}`,
    ...table(ladder, told, paint.dim),
    ...still.flatMap((id) =>
      lines(
        '  same      ',
        `${told.nameOf(id)} is drawn ${formatNumber(rungs[0]!.drawn[id]!)} on every number: it comes in whole layers`,
      ),
    ),
    ...lines(
      '  print     ',
      `${told.lay}, as the part; ${extents.map((each) => formatNumber(each)).join(' x ')} mm, ${layers} layers, ${Number(told.mass.toPrecision(2))} g, about ${Math.max(1, Math.round(told.minutes))} min (${printMinutesMethod})`,
    ),
    ...lines(
      '  try       ',
      `start with ${rungs.length}, the loosest, and go down one at a time, gently; the old part cannot be bought again, so stop before you need force`,
    ),
    ...(free
      ? []
      : lines(
          '  /!\\       ',
          'the machine leaves no side free for the strip: cut the numbers off it, one by one, before you try them',
          paint.yellow,
        )),
    ...told.cautions.flatMap((caution) => lines('  mind      ', caution, paint.yellow)),
    ...lines(
      '  then      ',
      `fettle ladder ${told.job} ${group} --felt N, the number that felt best; or what you found, as in --tight 1,2 --right 3 --loose 4-${rungs.length}`,
    ),
    ...told.files.map((path) => `  wrote ${path}`),
  ];
}

/** Steps are often a half of the usual last digit, and would look uneven, mm. */
const FINE = 0.01;

function table(
  { rungs, stepped, record }: Ladder,
  { nameOf }: LadderTold,
  dim: (text: string) => string,
): string[] {
  const head = ['number', ...stepped.flatMap((id) => [`${nameOf(id)}: clearance`, 'draw'])];
  const rows = rungs.map(({ number, clearance, drawn }) => [
    String(number),
    ...stepped.flatMap((id) => [formatNumber(clearance[id]!, FINE), formatNumber(drawn[id]!)]),
    note(number, rungs.length),
  ]);
  const windows = stepped.flatMap((id) => [windowOf(record.window[id]!), '']);
  const [first, ...rest] = columns([[...head, ''], ...rows, ['wanted', ...windows, '']]);
  return [dim(`  ${first}`), ...rest.map((line) => `  ${line}`.trimEnd())];
}

const note = (number: number, count: number): string => {
  if (number === 1) return 'tightest';
  if (number === count) return 'loosest';
  return number === (count + 1) / 2 ? 'as the part would be made' : '';
};

function windowOf([lo, hi]: readonly [number | null, number | null]): string {
  if (hi === null) return `from ${formatNumber(lo!)}`;
  return lo === null ? `up to ${formatNumber(hi)}` : `${formatNumber(lo)} .. ${formatNumber(hi)}`;
}
