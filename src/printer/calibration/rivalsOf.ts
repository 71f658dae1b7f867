import type { Known } from '../types.ts';
import { deletedResidual } from './deletedResidual.ts';
import type { Observation } from './observation.ts';
import { fitParameters, type ParameterFit } from './parameterFit.ts';

/** Share in its own fitted value below which an observation has too many others on its side to be a rival. */
const INFLUENTIAL = 0.2;

/** Standard deviations within which the accused must come for somebody else to be the culprit. */
const CLEARED = 2;

/** One that could be wrong instead of the accused, and the fit that takes the accused's side. */
export interface Rival {
  readonly observation: Observation;
  /** With the accused, without the rival. */
  readonly fit: ParameterFit;
}

/** Observations of a fit that could as well be the wrong ones: without one of them the accused, which the fit knows
 *  nothing of, fits. Where two features alone tell about a parameter and disagree, each accuses the other, and no
 *  arithmetic says which is right. */
export function rivalsOf(fit: ParameterFit, accused: Observation, prior: readonly Known[]): readonly Rival[] {
  return fit.observations.flatMap((observation, j) => {
    if (fit.hat[j]! < INFLUENTIAL) return [];
    const side = [...fit.observations.filter((other) => other !== observation), accused];
    const theirs = fitParameters(side, prior);
    const { difference, deviation } = deletedResidual(theirs, side.length - 1);
    return Math.abs(difference / deviation) <= CLEARED ? [{ observation, fit: theirs }] : [];
  });
}
