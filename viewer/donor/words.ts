import { type AxisName, axisName } from '../../src/job/axisName.ts';
import type { RefitWay } from '../../src/job/refitWay.ts';
import type { Vec3 } from '../../src/solid/vector.ts';
import { formatNumber } from '../../src/units/index.ts';

/** "along z", "along 0.6 0 0.8". */
export const alongWords = (axis: Readonly<Vec3>): string => `along ${axisWords(axisName(axis))}`;

export const axisWords = (name: AxisName): string =>
  typeof name === 'string' ? name : name.map((x) => Number(x.toFixed(2))).join(' ');

/** "3.40 longer", "3.40 shorter". */
export const byWords = (by: number): string =>
  `${formatNumber(Math.abs(by))} ${by < 0 ? 'shorter' : 'longer'}`;

/** What sections that meet differ by: mm^2 and mm. Empty where nothing differs. */
export function mismatchWords({ exact, mismatch: { area, step } }: RefitWay): string {
  if (exact) return 'leaves no trace';
  const parts = [
    ...(area > 0.005 ? [`sections differ by ${formatNumber(area)} mm²`] : []),
    ...(step !== null && Number.isFinite(step) && step > 0.0005
      ? [`walls step ${formatNumber(step)} mm at most`]
      : []),
  ];
  return parts.length > 0 ? parts.join(', ') : 'leaves a trace';
}

/** What happens to bores and posts, a clause each. */
export function featureWords({
  changes,
  cutsInto,
}: Pick<RefitWay, 'changes' | 'cutsInto'>): readonly string[] {
  return [
    ...changes.map(({ id, kind, by }) =>
      kind === 'longer' ? `${id} becomes ${byWords(by)}` : `${id} is no longer round`,
    ),
    ...cutsInto.map((id) => `cuts into ${id}`),
  ];
}

/** Letters of the stretches that are worth showing, by their place: `A` first from the low end, a mirror image with a stroke.
 *  Of many only the longest are. */
export function stretchNames(
  spans: readonly { readonly length: number; readonly partner: number | null }[],
  most = 8,
): ReadonlyMap<number, string> {
  const ranked = spans
    .map(({ length, partner }, k) => ({ k, length, partner }))
    .filter(({ k, partner }) => partner === null || partner >= k)
    .sort((a, b) => b.length - a.length || a.k - b.k)
    .slice(0, most)
    .sort((a, b) => a.k - b.k);
  return new Map(
    ranked.flatMap(({ k, partner }, n): [number, string][] => {
      const letter = String.fromCharCode(65 + n);
      return partner === null || partner === k
        ? [[k, letter]]
        : [
            [k, letter],
            [partner, `${letter}′`],
          ];
    }),
  );
}
