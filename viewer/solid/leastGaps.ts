import type { FitSurface } from '../../src/job/solidView.ts';
import { clearanceWindow } from '../../src/output/words/index.ts';
import { formatNumber } from '../../src/units/index.ts';

/** The least gap at each meeting of print and machine in a pose, in words; none for what meets nothing there.
 *  @example leastGaps(fit, 0)[0].words // => '0.04 mm a side at the least, 0.00 .. 0.08 wanted' */
export function leastGaps(
  { wanted, poses }: FitSurface,
  pose: number,
): readonly { readonly name: string; readonly words: string }[] {
  const least = wanted.map(() => Infinity);
  const gaps = poses[pose];
  gaps?.against.forEach((which, corner) => {
    if (which >= 0) least[which] = Math.min(least[which]!, gaps.gap[corner]!);
  });
  return wanted.flatMap(({ name, least: from, most }, k) => {
    const gap = least[k]!;
    if (!Number.isFinite(gap)) return [];
    return [
      { name, words: `${formatNumber(gap)} mm a side at the least, ${clearanceWindow([from, most])} wanted` },
    ];
  });
}
