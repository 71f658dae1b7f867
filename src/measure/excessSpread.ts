import chiSquareQuantile from '@stdlib/stats-base-dists-chisquare-quantile';
import { sampleStandardDeviation } from './statistics.ts';

/** How seldom honest readings may be called scattered. Common practice, no source. */
const SIGNIFICANCE = 0.01;

/** Whether readings scatter more than one reading is known to: the chi-square test of a variance, one
 *  side, at 1 %. Source: NIST/SEMATECH e-Handbook, 1.3.5.8 (from memory). `sigma0` in the unit of the
 *  readings, above 0. Undefined when they do not, and below 2 readings.
 *  @example excessSpread([4.00, 4.12], 0.02) // => { s: 0.0848..., limit: 0.0515... } */
export function excessSpread(
  readings: readonly number[],
  sigma0: number,
): { readonly s: number; readonly limit: number } | undefined {
  const dof = readings.length - 1;
  if (dof < 1) return undefined;
  const s = sampleStandardDeviation([...readings]);
  const limit = sigma0 * Math.sqrt(chiSquareQuantile(1 - SIGNIFICANCE, dof) / dof);
  return s > limit ? { s, limit } : undefined;
}
