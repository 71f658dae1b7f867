import { median, medianAbsoluteDeviation } from './statistics.ts';

/** Modified z-score above which a reading stands apart. Iglewicz and Hoaglin, How to Detect and Handle
 *  Outliers (1993), as recommended in the NIST/SEMATECH e-Handbook, 1.3.5.17 (from memory of both). */
const MODIFIED_Z_LIMIT = 3.5;

/** 0.6745 in the same source: median absolute deviation of a normal distribution over its sigma. */
const MAD_OVER_SIGMA = 0.6745;

/** Fewest readings among which one can stand apart. */
const FEWEST_READINGS = 3;

/** One reading that stands apart from the others. */
export interface Outlier {
  readonly index: number;
  /** Median of all readings. */
  readonly median: number;
  /** How far off the reading is, and how far off would pass; unit of the readings. */
  readonly distance: number;
  readonly limit: number;
}

/** Readings further from the median than 3.5 robust standard deviations. The deviation is that of the
 *  median absolute deviation, but never below `sigma0`, what one reading is known to scatter by: three
 *  readings may agree by luck, and a jitter of one step must not be held against the fourth. Rules on the
 *  largest studentised deviation (Grubbs) were passed over: at n = 3 theirs cannot exceed 1.1547 whatever
 *  the readings are. Empty below 3 readings.
 *  @example outliers([4.01, 4.00, 4.30], 0.02) // => [{ index: 2, median: 4.01, distance: 0.29, limit: 0.07... }] */
export function outliers(readings: readonly number[], sigma0: number): readonly Outlier[] {
  if (readings.length < FEWEST_READINGS) return [];
  const middle = median([...readings]);
  const sigma = Math.max(medianAbsoluteDeviation([...readings]) / MAD_OVER_SIGMA, sigma0);
  const limit = MODIFIED_Z_LIMIT * sigma;
  return readings.flatMap((reading, index) => {
    const distance = Math.abs(reading - middle);
    return distance > limit ? [{ index, median: middle, distance, limit }] : [];
  });
}
