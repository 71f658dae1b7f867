import type { Contributor, Dimension } from '../../measure/types.ts';
import { predictedSize } from '../behaviour.ts';
import type { CouponFeature } from '../coupon/feature.ts';
import { withKnown } from '../parameters.ts';
import { type Known, PARAMETERS, type PrinterProfile } from '../types.ts';

/** One feature's dimension beside what the prior printer would have printed. Lengths in mm. */
export interface Observation {
  readonly feature: CouponFeature;
  readonly dimension: Dimension;
  /** Measured minus predicted with every parameter at its prior value. */
  readonly excess: number;
  /** Change of the size per unit of each parameter, in the order of `PARAMETERS`. */
  readonly row: readonly number[];
  /** Variance that belongs to this dimension alone, without the printer's repeatability. */
  readonly variance: number;
  /** Causes it shares with other dimensions: the callipers. */
  readonly shared: readonly Contributor[];
}

/** What a dimension says about the parameters: linear, as `predictedSize` is linear in every one of them. */
export function observationOf(
  feature: CouponFeature,
  dimension: Dimension,
  profile: PrinterProfile,
  prior: readonly Known[],
): Observation {
  const known = Object.fromEntries(PARAMETERS.map((parameter, k) => [parameter, prior[k]!]));
  const predicted = predictedSize(feature.nominal, feature.measurand, withKnown(profile, known));
  const parameters = new Set(PARAMETERS.map((parameter) => `printer:${parameter}`));
  // What is no parameter (heights that come in whole layers) is luck of this one feature.
  const own = predicted.contributors.filter(({ id }) => !parameters.has(id));
  const isShared = ({ id }: Contributor) => id.startsWith('calliper:');
  const alone = dimension.contributors.filter((contributor) => !isShared(contributor));
  return {
    feature,
    dimension,
    excess: dimension.value - predicted.value,
    row: PARAMETERS.map((parameter) => predicted.sensitivity[`printer:${parameter}`] ?? 0),
    variance:
      alone.reduce((sum, { u }) => sum + u * u, 0) +
      own.reduce((sum, { id, u }) => sum + (u * (predicted.sensitivity[id] ?? 0)) ** 2, 0),
    shared: dimension.contributors.filter(isShared),
  };
}

/** Every shared cause of some observations once, in the order met, with its standard uncertainty in each. */
export function sharedCauses(
  observations: readonly Observation[],
): readonly { readonly id: string; readonly label: string; readonly effects: readonly number[] }[] {
  const labels = new Map(observations.flatMap(({ shared }) => shared.map(({ id, label }) => [id, label])));
  return [...labels].map(([id, label]) => ({
    id,
    label,
    effects: observations.map(({ shared }) => shared.find((cause) => cause.id === id)?.u ?? 0),
  }));
}
