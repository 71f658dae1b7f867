import type { Share } from '../../src/fit/types.ts';

/** One cause of doubt as a bar. */
export interface DoubtRow extends Share {
  /** Length of its bar, 0..1: the longest is 1. */
  readonly length: number;
}

/** Shares below this would only hide the others. */
const WORTH_SAYING = 0.005;

/** The causes of doubt worth a bar, the largest first, at most `most`, and what remains as one more. Shares 0..1.
 *  @example doubtRows(sharesOf(0.6, 0.4), 1) // => 0.6 with length 1, and "everything else" 0.4 with length 0.67 */
export function doubtRows(shares: readonly Share[], most: number): readonly DoubtRow[] {
  const named = shares.filter(({ share }) => share >= WORTH_SAYING).slice(0, most);
  if (named.length === 0) return [];
  const rest = 1 - named.reduce((sum, { share }) => sum + share, 0);
  const rows = rest >= WORTH_SAYING ? [...named, { id: '', label: 'everything else', share: rest }] : named;
  const longest = Math.max(...rows.map(({ share }) => share));
  return rows.map((row) => ({ ...row, length: row.share / longest }));
}
