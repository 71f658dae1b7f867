import { defaultPrinter } from '../defaultPrinter.ts';
import type { Known } from '../types.ts';
import type { Observation } from './observation.ts';
import { fitParameters, type ParameterFit } from './parameterFit.ts';

/** How much wider priors are taken where the printer may be none of the usual. */
const HARDLY_A_PRIOR = 8;

/** Prior uncertainties from the prior value beyond which a parameter lies outside its range, which ends at 1.73; and by
 *  how many of its own it must do so. */
const BEYOND = 2.5;
const CLEARLY = 3;

/** Priors that hardly count, for asking what the readings say by themselves. */
export const widePrior = (prior: readonly Known[]): readonly Known[] =>
  prior.map(({ value, u }) => ({ value, u: HARDLY_A_PRIOR * u }));

/** Signs that a prior may not hold the truth: a parameter at or past the end of its range, or a scatter that no ordinary
 *  machine has and that a prior held fast may only feign. */
const SUSPICIOUS = { shift: 1.73, scatter: 2 * defaultPrinter.repeatability } as const;

/** The fit of a printer that may be none of the usual. Where the readings by themselves put a parameter clear out of its
 *  prior range, the prior is wrong and says nothing; it is then taken as wide as the parameter lies off, so that it
 *  neither holds the parameter back nor passes its error on to the scatter. `usual` is the fit with the prior as it
 *  is, where somebody has made it already. */
export function fitPastPrior(
  observations: readonly Observation[],
  prior: readonly Known[],
  usual: ParameterFit = fitParameters(observations, prior),
): ParameterFit {
  const suspicious =
    usual.scatter.value > SUSPICIOUS.scatter ||
    prior.some(({ u }, k) => Math.abs(usual.shift[k]!) > SUSPICIOUS.shift * u);
  if (!suspicious) return usual;
  const free = fitParameters(observations, widePrior(prior));
  const taken = prior.map((known, k): Known => {
    const off = Math.abs(free.shift[k]!);
    const own = Math.sqrt(free.covariance[k]![k]!);
    return off > BEYOND * known.u + CLEARLY * own ? { value: known.value, u: off } : known;
  });
  return taken.some((known, k) => known !== prior[k]) ? fitParameters(observations, taken) : usual;
}
