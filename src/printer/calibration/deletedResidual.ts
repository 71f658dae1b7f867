import type { Observation } from './observation.ts';
import { dot, type ParameterFit } from './parameterFit.ts';
import { scatterOf } from './scatter.ts';

/** An observation against a fit in which it has no say. */
export interface DeletedResidual {
  /** Measured minus expected, mm. */
  readonly difference: number;
  /** Standard deviation of that difference, mm: print, reading, parameters and callipers. */
  readonly deviation: number;
  /** Degrees of freedom of the scatter behind it. */
  readonly dof: number;
}

/** Observation `i` of a fit against the same fit without it, at the same weights, by the hat matrix: the residual over
 *  1 - h; no second fit is made. Only the scatter is estimated afresh from what the others leave.
 *  R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982), 2.2 (from memory). */
export function deletedResidual(fit: ParameterFit, i: number): DeletedResidual {
  const { observations, hat, residuals } = fit;
  const own = 1 - hat[i]!;
  // Share of each observation in the fitted value of another.
  const share = (of: number, to: number): number =>
    observations[to]!.row.reduce((sum, x, k) => sum + x * fit.gain[k]![of]!, 0);
  const others = observations.flatMap(({ variance }, j) => {
    if (j === i) return [];
    const residual = residuals[j]! + (share(i, j) * residuals[i]!) / own;
    const lever = hat[j]! + (share(i, j) * share(j, i)) / own;
    return [{ square: residual ** 2, variance, freedom: Math.max(0, 1 - lever) }];
  });
  const scatter = scatterOf(others);
  const { row, variance } = observations[i]!;
  const common = fit.shared.reduce(
    (sum, { effects, shift }) => sum + ((effects[i]! - dot(row, shift)) / own) ** 2,
    0,
  );
  return {
    difference: residuals[i]! / own,
    deviation: Math.sqrt((scatter.value ** 2 + variance) / own + common),
    dof: scatter.dof,
  };
}

/** An observation that is not among those of the fit, against what the fit expects. */
export function residualOutside(fit: ParameterFit, observation: Observation): DeletedResidual {
  const { row, excess, variance, shared } = observation;
  const ofParameters = dot(
    row,
    fit.covariance.map((line) => dot(line, row)),
  );
  const ids = new Set([...fit.shared, ...shared].map(({ id }) => id));
  const common = [...ids].reduce((sum, id) => {
    const here = shared.find((cause) => cause.id === id)?.u ?? 0;
    const there = fit.shared.find((cause) => cause.id === id)?.shift;
    return sum + (here - (there === undefined ? 0 : dot(row, there))) ** 2;
  }, 0);
  return {
    difference: excess - dot(row, fit.shift),
    deviation: Math.sqrt(fit.scatter.value ** 2 + variance + ofParameters + common),
    dof: fit.scatter.dof,
  };
}
