import { TableRefusal } from '../tableRefusal.ts';

/** Upper ends of the ranges of nominal size, mm: over the one before, up to and including this one. ISO 286-1:2010,
 *  table 1, to 500 mm. */
export const sizeRanges = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500] as const;

/** The same, divided where the deviations c, r and s change within a range. ISO 286-1:2010, tables 2 to 5. */
export const dividedRanges = [
  3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450,
  500,
] as const;

/** Place in `ranges` of a nominal size, mm, above 0 and at most 500. Throws `size_outside_table`.
 *  @example rangeOf(sizeRanges, 30) // => 4 */
export function rangeOf(ranges: readonly number[], nominal: number): number {
  const place = ranges.findIndex((upTo) => nominal <= upTo);
  if (place < 0 || !(nominal > 0))
    throw new TableRefusal(
      'size_outside_table',
      'ISO 286-1',
      `${nominal} mm`,
      `a nominal size above 0 and at most ${ranges.at(-1)} mm`,
    );
  return place;
}
