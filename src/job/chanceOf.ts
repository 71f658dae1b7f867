import { fitChance } from '../fit/chance.ts';
import type { FitChance, FitProblem } from '../fit/types.ts';

/** The chance of a part nothing of which meets anything that was measured: not known. */
const notKnown: FitChance = { lines: {}, part: Number.NaN, shares: {}, partShares: [] };

/** Chance that all lines hold; NaN where there are none. */
export const chanceOf = (problem: FitProblem): FitChance =>
  problem.lines.length === 0 ? notKnown : fitChance(problem);
