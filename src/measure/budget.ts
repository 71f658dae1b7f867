import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import studentQuantile from '@stdlib/stats-base-dists-t-quantile';
import { power } from '../arithmetic/power.ts';
import type { Contributor } from './types.ts';

/** Confidence of every expanded uncertainty unless said otherwise. */
const CONFIDENCE = 0.95;

/** The bottom lines of an uncertainty budget. */
export interface CombinedUncertainty {
  /** Combined standard uncertainty. */
  readonly u: number;
  /** Effective degrees of freedom, truncated to a whole number; Infinity when nothing is limited. */
  readonly dof: number;
  /** Coverage factor. */
  readonly k: number;
  /** Expanded uncertainty k u. */
  readonly U: number;
}

/** Standard uncertainty of an error anywhere within plus or minus `halfWidth`: a / sqrt(3).
 *  JCGM 100:2008, 4.3.7.
 *  @example rectangular(0.02) // => 0.011547... */
export function rectangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Standard uncertainty of a display or scale with steps of `step`: step / sqrt(12).
 *  JCGM 100:2008, F.2.2.1.
 *  @example resolutionUncertainty(0.01) // => 0.0028867... */
export function resolutionUncertainty(step: number): number {
  return step / Math.sqrt(12);
}

type Cause = Pick<Contributor, 'u' | 'dof'>;

/** Root-sum-square of independent causes, each with sensitivity 1. JCGM 100:2008, 5.1.2.
 *  @example combinedUncertainty([{ u: 3, dof: Infinity }, { u: 4, dof: 9 }]) // => 5 */
export function combinedUncertainty(causes: readonly Cause[]): number {
  return Math.hypot(...causes.map(({ u }) => u));
}

/** Effective degrees of freedom, u^4 / sum(u_i^4 / nu_i), not truncated; Infinity when no cause with a
 *  limited number has any weight. Welch-Satterthwaite, JCGM 100:2008, G.4.1.
 *  @example effectiveDegreesOfFreedom([{ u: 3, dof: Infinity }, { u: 4, dof: 9 }]) // => 21.97... */
export function effectiveDegreesOfFreedom(causes: readonly Cause[]): number {
  const u = combinedUncertainty(causes);
  if (u === 0) return Number.POSITIVE_INFINITY;
  // Shares first, fourth powers after: uncertainties in metres would otherwise underflow.
  const doubt = causes.reduce((sum, cause) => sum + power(cause.u / u, 4) / cause.dof, 0);
  return 1 / doubt;
}

/** Coverage factor: the two-sided quantile of Student's t, of the normal distribution for infinitely many
 *  degrees of freedom. `dof` 1 or above, `confidence` above 0 and below 1. JCGM 100:2008, G.3, table G.2.
 *  Throws a RangeError outside these.
 *  @example coverageFactor(16, 0.99) // => 2.9207... */
export function coverageFactor(dof: number, confidence = CONFIDENCE): number {
  if (!(dof >= 1) || !(confidence > 0 && confidence < 1)) {
    throw new RangeError(
      `coverage factor requires 1 or more degrees of freedom and confidence above 0 and below 1 (given ${dof}, ${confidence})`,
    );
  }
  const probability = (1 + confidence) / 2;
  return dof === Number.POSITIVE_INFINITY
    ? normalQuantile(probability, 0, 1)
    : studentQuantile(probability, dof);
}

/** Combines the independent causes of doubt of one value, each with sensitivity 1 on it. Truncates the
 *  effective degrees of freedom as JCGM 100:2008, G.4.1, note 1 has it. Order does not matter.
 *  @example combine([{ u: 3, dof: Infinity }, { u: 4, dof: 9 }])
 *  // => { u: 5, dof: 21, k: 2.0796..., U: 10.398... } */
export function combine(causes: readonly Cause[], confidence = CONFIDENCE): CombinedUncertainty {
  const u = combinedUncertainty(causes);
  // Nudged by rounding noise, so that one cause with 12 degrees of freedom does not end with 11.
  const dof = Math.floor(effectiveDegreesOfFreedom(causes) * (1 + 1e-12));
  const k = coverageFactor(dof, confidence);
  return { u, dof, k, U: k * u };
}
