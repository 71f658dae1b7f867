import type { Donor } from '../../donor/donor.ts';
import { axisText } from '../../job/refitSteps.ts';
import type { MakeResult } from '../../job/result.ts';
import type { ScalingInstead } from '../../job/scalingInstead.ts';
import { formatNumber } from '../../units/index.ts';
import { columns, type Looks, wrapped } from '../terminal.ts';

/** What the refit does, feature by feature: the donor's size, the machine's, what is drawn, and how sure the difference is. */
export function comparisonText(
  donor: Pick<Donor, 'features' | 'low' | 'high' | 'name'>,
  { interfaces, changes = [] }: Pick<MakeResult, 'interfaces' | 'changes'>,
  { paint, width }: Looks,
): readonly string[] {
  const size = (id: string): number => {
    const bore = donor.features.bores.find((one) => one.id === id);
    const post = donor.features.posts.find((one) => one.id === id);
    const k = ['lengthX', 'lengthY', 'lengthZ'].indexOf(id);
    return bore?.inscribed ?? post?.circumscribed ?? donor.high[k]! - donor.low[k]!;
  };
  const rows = interfaces.map(({ id, name, host, drawn, u }) => [
    name,
    formatNumber(size(id)),
    formatNumber(host),
    formatNumber(drawn),
    `${formatNumber(drawn - size(id))} +- ${formatNumber(2 * u, u)}`,
  ]);
  const [head, ...table] = columns([['refit (mm)', 'donor', 'machine', 'draw', 'change'], ...rows]);
  const done = changes.flatMap(({ axis, by, because, exact, mismatchArea }) => {
    const trace = exact ? 'leaves no trace' : `sections differ by ${formatNumber(mismatchArea)} mm2`;
    const text = `${by < 0 ? 'shorten' : 'lengthen'} ${axisText(axis)} by ${formatNumber(Math.abs(by))}: ${because}; ${trace}`;
    return wrapped(text, width - 2).map((line, k) => `  ${k === 0 ? '' : '  '}${line}`);
  });
  return [
    paint.bold(donor.name),
    ...done,
    ...(rows.length === 0 ? [] : [paint.dim(`  ${head}`), ...table.map((line) => `  ${line}`)]),
  ];
}

/** Features named; more would hide the point. */
const SHOWN = 4;

/** Why it was not scaled. */
export function scalingText(scaling: ScalingInstead | undefined, { width }: Looks): readonly string[] {
  if (!scaling || scaling.features.length === 0) return [];
  const told = scaling.features.slice(0, SHOWN).map(({ id, now, scaled, clearance, window }) => {
    const out =
      clearance === null || window === null
        ? ''
        : clearance < (window[0] ?? -Infinity) || clearance > (window[1] ?? Infinity)
          ? ` (clearance ${formatNumber(clearance)}, outside its window)`
          : ` (clearance ${formatNumber(clearance)})`;
    return `${id} ${formatNumber(now)} -> ${formatNumber(scaled)}${out}`;
  });
  const text = `scaling all of it by ${Number(scaling.factor.toPrecision(4))} instead would make ${told.join(', ')}`;
  return wrapped(text, width - 2).map((line, k) => `  ${k === 0 ? '' : '  '}${line}`);
}
