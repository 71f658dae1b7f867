import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { power } from '../arithmetic/power.ts';

const standard = normalCdf.factory(0, 1);
const LOG_ROOT_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** Below this the distribution function is taken from its asymptotic series, whose third term is then below 1e-5 of it. */
const FLANK = -12;

/** Logarithm of the standard normal distribution function; finite however far out x lies.
 *  Flank: Mills' ratio, phi(x) / -x (1 - 1/x^2 + 3/x^4), Abramowitz and Stegun 26.2.12.
 *  @example logCdf(0) // => -0.6931 */
export function logCdf(x: number): number {
  if (x === -Infinity) return -Infinity;
  if (x > FLANK) return Math.log(standard(x));
  return -(x ** 2) / 2 - LOG_ROOT_TWO_PI - Math.log(-x) + Math.log1p(-1 / x ** 2 + 3 / power(x, 4));
}

/** Logarithm of the chance that a standard normal error falls between `low` and `high`; either may be infinite. */
export function logBetween(low: number, high: number): number {
  if (low > 0) return logBetween(-high, -low);
  const upper = logCdf(high);
  return upper + Math.log1p(-Math.exp(Math.min(0, logCdf(low) - upper)));
}

/** Density of the standard normal distribution. */
export const density = (x: number): number => Math.exp(-(x ** 2) / 2 - LOG_ROOT_TWO_PI);

/** Chance that a standard normal error stays below x. */
export const cdf = (x: number): number => standard(x);
