import { type Known, PARAMETERS } from '../types.ts';
import { leastSquares } from './leastSquares.ts';
import { type Observation, sharedCauses } from './observation.ts';
import { scatterOf } from './scatter.ts';

/** The parameters that suit some observations best. Vectors in the order of `PARAMETERS` or of the observations. */
export interface ParameterFit {
  readonly observations: readonly Observation[];
  readonly prior: readonly Known[];
  /** Change of each parameter from its prior value. */
  readonly shift: readonly number[];
  /** Of the parameters, callipers left out. */
  readonly covariance: readonly (readonly number[])[];
  /** Change of parameter k per mm that observation i reads more: gain[k][i]. */
  readonly gain: readonly (readonly number[])[];
  /** Printer's repeatability. */
  readonly scatter: { readonly value: number; readonly dof: number };
  /** Excess minus fitted excess, mm. */
  readonly residuals: readonly number[];
  /** Share of each observation in its own fitted value, 0 to below 1. */
  readonly hat: readonly number[];
  /** Causes the observations share, with what one standard uncertainty of each does to the parameters. */
  readonly shared: readonly {
    readonly id: string;
    readonly label: string;
    readonly effects: readonly number[];
    readonly shift: readonly number[];
  }[];
}

/** Rounds after which scatter and weights agree to rounding; they do after about six. */
const MOST_ROUNDS = 60;

/** Fits the parameters to observations and prior: weighted least squares in which the prior of each parameter is one
 *  more observation (a rectangular one counts by its standard uncertainty) and the weight of a feature is one over the
 *  sum of its own variance and the printer's, which is estimated alongside until the two agree. What the callipers did
 *  to all features alike gets no weight: no residual could show it, so it is carried through by the gain instead.
 *  `scatter`, mm, holds the repeatability where it is not to be estimated. `trust`, one factor from 0 to 1 an
 *  observation, lowers weights. A prior with u = 0 stays exactly as it is. */
export function fitParameters(
  observations: readonly Observation[],
  prior: readonly Known[],
  options: { readonly scatter?: number; readonly trust?: readonly number[] } = {},
): ParameterFit {
  const system = systemOf(observations, prior);
  const { trust } = options;
  if (options.scatter !== undefined) {
    const scatter = { value: options.scatter, dof: Number.POSITIVE_INFINITY };
    return completed(system, solved(system, scatter.value, trust), scatter);
  }
  let scatter = scatterOf([]);
  for (let round = 0; ; round++) {
    const solution = solved(system, scatter.value, trust);
    const next = scatterOf(
      observations.map(({ variance }, i) => ({
        square: solution.residuals[i]! ** 2,
        variance,
        freedom: 1 - solution.hat[i]!,
      })),
    );
    const settled = Math.abs(next.value - scatter.value) <= 1e-9 * next.value;
    if (settled || round === MOST_ROUNDS) return completed(system, solution, next);
    scatter = next;
  }
}

/** The equations without their weights. Unknowns are counted in prior uncertainties, so that the prior is a row of the
 *  unit matrix; parameters known without doubt are none. */
interface System {
  readonly observations: readonly Observation[];
  readonly prior: readonly Known[];
  readonly free: readonly number[];
  readonly design: readonly (readonly number[])[];
  readonly excess: readonly number[];
}

function systemOf(observations: readonly Observation[], prior: readonly Known[]): System {
  const free = PARAMETERS.flatMap((_, k) => (prior[k]!.u > 0 ? [k] : []));
  const unit = free.map((k) => free.map((other) => (k === other ? 1 : 0)));
  return {
    observations,
    prior,
    free,
    design: [...observations.map(({ row }) => free.map((k) => row[k]! * prior[k]!.u)), ...unit],
    excess: [...observations.map(({ excess }) => excess), ...free.map(() => 0)],
  };
}

interface Solution {
  readonly weights: readonly number[];
  readonly coefficients: readonly number[];
  readonly cofactor: readonly (readonly number[])[];
  readonly residuals: readonly number[];
  readonly hat: readonly number[];
}

function solved(
  { observations, free, design, excess }: System,
  scatter: number,
  trust: readonly number[] | undefined,
): Solution {
  const weights = observations.map(({ variance }, i) => (trust?.[i] ?? 1) / (scatter ** 2 + variance));
  if (free.length === 0)
    return { weights, coefficients: [], cofactor: [], residuals: excess, hat: excess.map(() => 0) };
  return { weights, ...leastSquares(design, excess, [...weights, ...free.map(() => 1)]) };
}

function completed(
  { observations, prior, free }: System,
  { weights, coefficients, cofactor, residuals, hat }: Solution,
  scatter: ParameterFit['scatter'],
): ParameterFit {
  const place = PARAMETERS.map((_, k) => free.indexOf(k));
  const covariance = place.map((a, k) =>
    place.map((b, l) => (a === -1 || b === -1 ? 0 : cofactor[a]![b]! * prior[k]!.u * prior[l]!.u)),
  );
  const gain = covariance.map((row) =>
    observations.map((observation, i) => weights[i]! * dot(row, observation.row)),
  );
  return {
    observations,
    prior,
    shift: place.map((a, k) => (a === -1 ? 0 : coefficients[a]! * prior[k]!.u)),
    covariance,
    gain,
    scatter,
    residuals: residuals.slice(0, observations.length),
    hat: hat.slice(0, observations.length),
    shared: sharedCauses(observations).map((cause) => ({
      ...cause,
      shift: gain.map((row) => dot(row, cause.effects)),
    })),
  };
}

/** Sum of products. */
export const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, k) => sum + x * b[k]!, 0);
