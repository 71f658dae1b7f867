import type { GapWanted } from '../../src/job/solidView.ts';
import { formatNumber } from '../../src/units/index.ts';

/** Half of a window has a digit more than the window. */
const fine = (mm: number): string => formatNumber(mm, 0.01);

/** A gap and what is wanted there, in words. What any gap will do for is said only where there is one to keep.
 *  @example gapWords(0.0375, { name: '', least: 0, most: 0.075 }) // => '0.037 mm a side, 0.000 .. 0.075 wanted' */
export function gapWords(gap: number, { least, most }: GapWanted): string {
  const there = `${fine(gap)} mm a side`;
  if (Number.isFinite(most)) return `${there}, ${fine(least)} .. ${fine(most)} wanted`;
  return least > 0 ? `${there}, at least ${fine(least)} wanted` : `${there}, may touch`;
}
