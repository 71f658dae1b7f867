import { type AxisName, axisName } from '../../src/job/axisName.ts';
import type { ShownSpan } from '../../src/job/refitSheet.ts';
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

/** "8.60 mm, 3.40 shorter than in the model". */
export function lengthWords(now: number, was: number): string {
  const by = now - was;
  const change = Math.abs(by) > 0.005 ? `${byWords(by)} than in the model` : 'as in the model';
  return `${formatNumber(now)} mm, ${change}`;
}

/** Whether a stretch has one section from end to end, and by how much it has not. `step` in mm, null where nobody looked;
 *  sections that differ by the share `sameSection` at most count as the same. */
export function sectionWords(
  { area, mismatchArea }: Pick<ShownSpan, 'area' | 'mismatchArea'>,
  { step, sameSection }: { readonly step: number | null; readonly sameSection: number },
): { readonly isSame: boolean; readonly words: string } {
  const share = area > 0 ? mismatchArea / area : 0;
  const walls = step === null || !Number.isFinite(step) ? '' : `, walls step ${formatNumber(step)} mm`;
  const limit = `up to ${Number((100 * sameSection).toPrecision(2))} % leaves no trace`;
  return {
    isSame: share <= sameSection,
    words: `sections differ by ${formatNumber(100 * share)} % of ${formatNumber(area)} mm²${walls}; ${limit}`,
  };
}

/** What sections that meet differ by: mm^2 and mm; what else stays to be seen where they do not. */
export function mismatchWords({ kind, exact, mismatch: { area, step }, changes }: RefitWay): string {
  if (exact) return 'leaves no trace';
  const parts = [
    ...(area > 0.005 ? [`sections differ by ${formatNumber(area)} mm²`] : []),
    ...(step !== null && Number.isFinite(step) && step > 0.005
      ? [`walls step ${formatNumber(step)} mm at most`]
      : []),
  ];
  if (parts.length > 0) return parts.join(', ');
  if (kind === 'cut') return 'the walls kink there';
  return changes.some((change) => change.kind === 'distorted') && kind !== 'stretch'
    ? 'flats would stay in what is round'
    : 'slanted faces come to lean otherwise';
}

/** What happens to bores and posts, a clause each. */
export function featureWords({
  changes,
  cutsInto,
}: Pick<RefitWay, 'changes' | 'cutsInto'>): readonly string[] {
  const bent = changes.flatMap(({ id, kind }) => (kind === 'distorted' ? [id] : []));
  return [
    ...changes.flatMap(({ id, kind, by }) => (kind === 'longer' ? [`${id} becomes ${byWords(by)}`] : [])),
    ...(bent.length > 0 ? [`${bent.join(', ')} no longer round`] : []),
    ...(cutsInto.length > 0 ? [`cuts into ${cutsInto.join(', ')}`] : []),
  ];
}

/** Letters of the stretches that are worth showing, by their place: `A` first from the low end, a mirror image with a stroke.
 *  Of many only the longest are, and those that spoil a bore or post only where there is no other. */
export function stretchNames(
  spans: readonly Pick<ShownSpan, 'length' | 'partner' | 'distorts'>[],
  most = 8,
): ReadonlyMap<number, string> {
  const clean = spans.some(({ distorts }) => distorts.length === 0);
  const ranked = spans
    .map(({ length, partner, distorts }, k) => ({ k, length, partner, spoils: distorts.length > 0 }))
    .filter(({ k, partner, spoils }) => (partner === null || partner >= k) && !(clean && spoils))
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
