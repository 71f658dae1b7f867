import { median } from '../../measure/statistics.ts';

/** Quartile of the standard normal: median of the absolute value of what has standard deviation 1. */
const MEDIAN_ABSOLUTE = 0.6745;

/** Standard deviation by which repeated readings of one feature scatter in this hand, mm: the median difference of two
 *  readings of one feature, over all features, which a few mistyped ones do not move; never below `sigma0`, what a
 *  reading is known to scatter by. Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993), for 0.6745.
 *  @example handOf([[4.00, 4.02], [5.1]], 0.0202) // => 0.0209... */
export function handOf(sizes: readonly (readonly number[])[], sigma0: number): number {
  const differences = sizes.flatMap((each) =>
    each.flatMap((a, k) => each.slice(k + 1).map((b) => Math.abs(a - b))),
  );
  if (differences.length === 0) return sigma0;
  return Math.max(sigma0, median(differences) / Math.SQRT2 / MEDIAN_ABSOLUTE);
}
