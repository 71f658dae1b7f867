export {
  type CombinedUncertainty,
  combine,
  combinedUncertainty,
  coverageFactor,
  effectiveDegreesOfFreedom,
  rectangular,
  resolutionUncertainty,
} from './budget.ts';
export { defaultCallipers, PRIOR_DEGREES_OF_FREEDOM, PRIOR_REPEATABILITY } from './callipers.ts';
export { dimensionOf } from './dimension.ts';
export { landCorrection } from './landCorrection.ts';
export { type ReadingSpec, unitOf } from './readingSpec.ts';
export { type RefusedReading, refusals } from './refusals.ts';
export type { Callipers, Contributor, Dimension, Distribution, Jaw, Remark } from './types.ts';
export type { UnitSlip } from './unitSlip.ts';
export { withMoreReadings } from './withMoreReadings.ts';
