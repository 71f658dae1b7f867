import { sampleStandardDeviation } from './statistics.ts';

/** What repeated readings say about the doubt of their mean. */
export interface TypeA {
  /** Pooled standard deviation of one reading. */
  readonly s: number;
  /** Standard uncertainty of the mean, s / sqrt(n). */
  readonly u: number;
  readonly dof: number;
  /** Standard deviation of the error of the mean, which the prior makes smaller than Student's of so many degrees of
   *  freedom; absent where the readings speak for themselves. */
  readonly deviation?: number;
}

/** Type A evaluation of the mean of `readings` with a pooled standard deviation,
 *  s^2 = (nu0 s0^2 + (n - 1) s^2) / (nu0 + n - 1), u = s / sqrt(n), nu0 + n - 1 degrees of freedom.
 *  JCGM 100:2008, 4.2.3 and 4.2.4 (pooled estimate) with the prior as one more set of readings. `s0` is
 *  the prior repeatability in the unit of the readings, `nu0` what it is worth, 0 for not at all.
 *
 *  The prior says that hands scatter by s0 in the root of their mean variance; the mean of the variance after n readings
 *  is then ((nu0 - 2) s0^2 + (n - 1) s^2) / (nu0 + n - 3), the inverse chi-square law's (Gelman et al., Bayesian Data
 *  Analysis, 2.6, from memory), and that over n the square of `deviation`. It takes nu0 above 2.
 *  Throws a RangeError without a reading, or with one reading and no prior.
 *  @example typeA([4.02, 4.04], 0.02, 10) // => { s: 0.01954..., u: 0.01382..., dof: 11 } */
export function typeA(readings: readonly number[], s0: number, nu0: number): TypeA {
  const n = readings.length;
  const dof = nu0 + n - 1;
  if (n === 0) throw new RangeError('type A evaluation requires at least 1 reading (given 0)');
  if (!(s0 >= 0) || !(nu0 >= 0)) {
    throw new RangeError(
      `type A evaluation requires a prior of 0 or above (given repeatability ${s0} worth ${nu0} degrees of freedom)`,
    );
  }
  if (dof === 0) {
    throw new RangeError('type A evaluation requires at least 2 readings where there is no prior (given 1)');
  }
  const own = n > 1 ? sampleStandardDeviation([...readings]) : 0;
  const s = Math.sqrt((nu0 * s0 ** 2 + (n - 1) * own ** 2) / dof);
  const known = { s, u: s / Math.sqrt(n), dof };
  if (!(nu0 > 2)) return known;
  const variance = ((nu0 - 2) * s0 ** 2 + (n - 1) * own ** 2) / (dof - 2);
  return { ...known, deviation: Math.sqrt(variance / n) };
}
