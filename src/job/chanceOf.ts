import { fitChance } from '../fit/chance.ts';
import type { FitChance, FitProblem } from '../fit/types.ts';
import type { Remembered } from '../remembered/remembered.ts';

/** The chance of a part nothing of which meets anything that was measured: not known. */
const notKnown: FitChance = { lines: {}, part: Number.NaN, shares: {}, partShares: [] };

/** Chance that all lines hold; NaN where there are none. */
export const chanceOf = (problem: FitProblem): FitChance =>
  problem.lines.length === 0 ? notKnown : fitChance(problem);

/** `chanceOf`, once for every problem. */
export const chanceOnce = (problem: FitProblem, known: Remembered): FitChance =>
  known.of('chance', problem, () => chanceOf(problem));
