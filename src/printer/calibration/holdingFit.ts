import { median } from '../../measure/statistics.ts';
import { defaultPrinter } from '../defaultPrinter.ts';
import type { Known } from '../types.ts';
import { deletedResidual, residualOutside } from './deletedResidual.ts';
import type { Observation } from './observation.ts';
import { oddityLimit } from './oddityLimit.ts';
import { fitParameters, type ParameterFit } from './parameterFit.ts';

/** A fit to those observations that agree. */
export interface HoldingFit {
  readonly fit: ParameterFit;
  /** Indices of the observations that do not fit it, rising. */
  readonly aside: readonly number[];
}

/** Where the weight of a residual begins to fall, in standard deviations, and how often the weights are taken anew.
 *  P. J. Huber, Robust Statistics (1981), 7.8 (from memory): 95 % as good as least squares where nothing is wrong. */
const HUBER = { bend: 1.345, rounds: 25 } as const;

/** Robust residual beyond which an observation starts aside; what fits after all comes back. */
const START_ASIDE = 3;

/** Scatter that ordinary machines stay below, mm; common practice, no source. */
const ORDINARY_SCATTER = 0.04;

/** Median absolute value of a standard normal, inverse. */
const MEDIAN_TO_SIGMA = 1.4826;

/** Finds the observations that do not fit, without letting them spoil the fit they are judged by. It starts from weights
 *  that bound what any of them can do (Huber), sets aside what is far off, and takes back one by one what agrees with
 *  the rest; then puts out, one by one, what the rest disowns. A least squares fit to everything would not do: two
 *  large mistakes hide each other, and the scatter they feign hides the small ones. */
export function holdingFit(observations: readonly Observation[], prior: readonly Known[]): HoldingFit {
  const whole = fitParameters(observations, prior);
  if (isQuiet(whole)) return { fit: whole, aside: [] };
  const aside = new Set(farOff(observations, prior));
  const limit = (dof: number) => oddityLimit(dof, observations.length);
  const inside = () => observations.flatMap((_, i) => (aside.has(i) ? [] : [i]));
  const refit = () =>
    fitParameters(
      inside().map((i) => observations[i]!),
      prior,
    );

  const putOut = new Set<number>();
  let fit = refit();
  for (;;) {
    const back = strangest(
      [...aside].filter((i) => !putOut.has(i)),
      (i) => {
        const { difference, deviation, dof } = residualOutside(fit, observations[i]!);
        return -Math.abs(difference / deviation) / limit(dof);
      },
    );
    if (back !== undefined && back.score >= -1) {
      aside.delete(back.index);
      fit = refit();
      continue;
    }
    const members = inside();
    const out = strangest(members, (i) => {
      const { difference, deviation, dof } = deletedResidual(fit, members.indexOf(i));
      return Math.abs(difference / deviation) / limit(dof);
    });
    if (out === undefined || out.score <= 1) break;
    aside.add(out.index);
    // Once put out it stays out, so that this comes to an end.
    putOut.add(out.index);
    fit = refit();
  }
  return { fit, aside: [...aside].sort((a, b) => a - b) };
}

/** Whether nothing is odd: prints scatter no more than ordinary ones, and no observation is far off by that measure. A
 *  mistake large enough to hide others would show in the one or the other. Spares most coupons the search. */
function isQuiet(fit: ParameterFit): boolean {
  if (fit.scatter.value > ORDINARY_SCATTER) return false;
  return fit.observations.every((_, i) => {
    const { difference, deviation } = deletedResidual(fit, i);
    return Math.abs(difference) <= START_ASIDE * deviation;
  });
}

/** Index with the highest score. */
function strangest(
  indices: readonly number[],
  scoreOf: (index: number) => number,
): { readonly index: number; readonly score: number } | undefined {
  let best: { index: number; score: number } | undefined;
  for (const index of indices) {
    const score = scoreOf(index);
    if (best === undefined || score > best.score) best = { index, score };
  }
  return best;
}

function farOff(observations: readonly Observation[], prior: readonly Known[]): readonly number[] {
  if (observations.length === 0) return [];
  let scatter: number = defaultPrinter.repeatability;
  let trust = observations.map(() => 1);
  let sizes: readonly number[] = [];
  for (let round = 0; round < HUBER.rounds; round++) {
    const { residuals, hat } = fitParameters(observations, prior, { scatter, trust });
    sizes = observations.map(({ variance }, i) => {
      const weight = trust[i]! / (scatter ** 2 + variance);
      // A row of full weight that fits itself moves its fitted value with it; one of little weight does not.
      return Math.abs(residuals[i]!) * Math.sqrt(weight / trust[i]! / (1 - hat[i]!));
    });
    const next = sizes.map((size) => Math.min(1, HUBER.bend / size));
    if (next.every((weight, i) => Math.abs(weight - trust[i]!) < 1e-3)) break;
    trust = next;
    scatter = Math.max(
      defaultPrinter.repeatability,
      MEDIAN_TO_SIGMA * median(residuals.map((residual) => Math.abs(residual))),
    );
  }
  return sizes.flatMap((size, i) => (size > START_ASIDE ? [i] : []));
}
