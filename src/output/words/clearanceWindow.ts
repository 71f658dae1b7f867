import { formatNumber } from '../../units/index.ts';

/** A clearance window, mm, the least and the greatest clearance; infinite where it has no such end.
 *  @example clearanceWindow([0, 0.15]) // => '0.00 .. 0.15' */
export function clearanceWindow([lo, hi]: readonly [number, number]): string {
  if (!Number.isFinite(hi)) return `from ${formatNumber(lo)}`;
  if (!Number.isFinite(lo)) return `up to ${formatNumber(hi)}`;
  return `${formatNumber(lo)} .. ${formatNumber(hi)}`;
}
