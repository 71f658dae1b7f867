import type { FitSurface } from '../../src/job/solidView.ts';
import { gapWords } from './gapWords.ts';

/** The least gap at each meeting of print and machine in a pose, in words; none for what meets nothing there.
 *  @example leastGaps(fit, 0)[0].words // => '0.037 mm a side, 0.000 .. 0.075 wanted' */
export function leastGaps(
  { wanted, poses }: FitSurface,
  pose: number,
): readonly { readonly name: string; readonly words: string }[] {
  const least = wanted.map(() => Infinity);
  const gaps = poses[pose];
  gaps?.against.forEach((which, corner) => {
    if (which >= 0) least[which] = Math.min(least[which]!, gaps.gap[corner]!);
  });
  return wanted.flatMap((one, k) =>
    Number.isFinite(least[k]!) ? [{ name: one.name, words: gapWords(least[k]!, one) }] : [],
  );
}
