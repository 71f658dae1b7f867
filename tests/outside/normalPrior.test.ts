import { expect, it } from 'vitest';
import { afterReading, lengthOf, nothingBelieved } from '../../src/fit/trialBelief.ts';

// Box and Tiao, Bayesian Inference in Statistical Analysis (1973), 1.2.3, from memory: two physicists, prior beliefs about a
// constant 900 +- 20 and 800 +- 80, one observation 850 +- 40. Published posteriors: 890 +- 17.9 and 840 +- 35.7.
it.each([
  ['A', 900, 20, 890, 17.9],
  ['B', 800, 80, 840, 35.7],
])('physicist %s learns from one observation as published', (_, prior, u, mean, left) => {
  const belief = afterReading(nothingBelieved, { constant: u, observation: 40 }, 850 - prior);
  const found = lengthOf(belief, { constant: u });
  expect(prior + found.mean).toBeCloseTo(mean, 6);
  // Printed to a tenth, B's cut off rather than rounded.
  expect(Math.abs(Math.sqrt(found.variance) - left)).toBeLessThan(0.1);
});
