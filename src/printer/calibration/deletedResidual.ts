import type { Observation } from './observation.ts';
import { dot, type ParameterFit } from './parameterFit.ts';
import { type Residual, scatterOf } from './scatter.ts';

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
  const { observations, gain, hat, residuals } = fit;
  const own = 1 - hat[i]!;
  // Share of this observation in the fitted values of the others, and of theirs in its own.
  const given = observations.map(({ row }) => row.reduce((sum, x, k) => sum + x * gain[k]![i]!, 0));
  const taken = observations.map((_, j) =>
    observations[i]!.row.reduce((sum, x, k) => sum + x * gain[k]![j]!, 0),
  );
  const others: Residual[] = [];
  for (const [j, { variance }] of observations.entries()) {
    if (j === i) continue;
    const residual = residuals[j]! + (given[j]! * residuals[i]!) / own;
    const lever = hat[j]! + (given[j]! * taken[j]!) / own;
    others.push({ square: residual ** 2, variance, freedom: Math.max(0, 1 - lever) });
  }
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
