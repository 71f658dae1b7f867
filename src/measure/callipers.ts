import type { Callipers } from './types.ts';

/** Repeatability s0 of one reading by hand on small plastic parts, mm. Common practice, no source
 *  (DIN 862 asks 0.01 mm of the instrument alone, on a gauge block). */
export const PRIOR_REPEATABILITY = 0.02;

/** Degrees of freedom nu0 that the prior repeatability is worth: as if from eleven earlier readings, so
 *  that a lucky pair of equal readings does not pass for certainty. Common practice, no source. */
export const PRIOR_DEGREES_OF_FREEDOM = 10;

/** The usual digital callipers, as long as nobody says more about their own: step 0.01 mm, zero clean,
 *  inside jaws with lands 0.3 mm wide, give or take 0.1 mm standard uncertainty. Lands: common practice,
 *  no source; measure them on your own pair. Permissible error as in DIN 862. */
export const defaultCallipers: Callipers = {
  name: 'my callipers',
  scale: 'digital',
  resolution: 0.01,
  zero: 0,
  landWidth: 0.3,
  landWidthUncertainty: 0.1,
  repeatability: PRIOR_REPEATABILITY,
};
