import { columns } from '../../../src/output/words/index.ts';
import { folderOf } from './keepFailure.ts';
import { countsOf, type KindTally, median, often, usual } from './tally.ts';

/** An input that came to grief. */
export interface Failure {
  readonly kind: string;
  readonly seed: number;
  readonly said: string;
}

/** What a run reached, as lines. */
export function report(
  kinds: readonly KindTally[],
  failures: readonly Failure[],
  seed: number,
): readonly string[] {
  const tried = kinds.filter(({ all }) => all.length > 0);
  const rows = tried.map((tally) => {
    const { tried: all, made, refused, failed } = countsOf(tally);
    const allowed = usual(tally);
    const slowest = Math.max(...tally.all.map((one) => one.ms / allowed(one)));
    return [
      tally.kind,
      ...[all, made, refused, failed].map(String),
      median(tally.all.map(({ ms }) => ms)).toFixed(1),
      slowest > 0 ? slowest.toFixed(1) : '-',
    ];
  });
  const codes = tried.flatMap(({ kind, all }) => {
    const told = often(all.flatMap((one) => one.codes)).map(([code, count]) => `${code} ${count}`);
    return told.length === 0 ? [] : [`  ${kind}: ${told.join(', ')}`];
  });
  return [
    `seed ${seed}`,
    ...columns([
      ['kind', 'tried', 'made', 'refused', 'failed', 'median ms', 'slowest, times the usual'],
      ...rows,
    ]),
    'refused for',
    ...codes,
    ...(failures.length === 0 ? ['nothing failed'] : [`${failures.length} failed`, ...told(failures)]),
  ];
}

/** Failures by kind and what was said, numbers apart: one fault comes many times. */
function told(failures: readonly Failure[]): readonly string[] {
  const alike = new Map<string, Failure[]>();
  for (const one of failures) {
    const key = `${one.kind}: ${one.said}`
      .split('\n')
      .slice(0, 3)
      .join(' ')
      .replaceAll(/[\d.]+|"[^"]*"/g, '0')
      .replaceAll(/\/tmp\S+/g, '')
      .slice(0, 200);
    alike.set(key, [...(alike.get(key) ?? []), one]);
  }
  return [...alike.values()].flatMap((list) => failureLines(list[0]!, list.length));
}

const failureLines = ({ kind, seed, said }: Failure, count: number): readonly string[] => [
  `  ${count} x ${said.split('\n').slice(0, 5).join(' ').replaceAll(/\s+/g, ' ').slice(0, 500)}`,
  `    npm run fuzz -- --only '${kind}' --case ${seed}    in ${folderOf(kind, seed)}`,
];
