import type { ReadingSpec } from '../../measure/readingSpec.ts';
import type { Shape } from '../../solid/shape.ts';
import type { Vec3 } from '../../solid/vector.ts';
import type { Measurand } from '../measurand.ts';

/** One thing to measure on the coupon. Frame of the written STL: on the bed, z up; mm. */
export interface CouponFeature {
  /** `bore.3`, `rib.x.2`: stands in readings files. Only lower case letters, digits and points. */
  readonly id: string;
  /** Number that stands on the part beside it, and on the form. */
  readonly number: number;
  readonly kind: Measurand['kind'];
  /** Axis of a bore; for all others the direction in which they are measured. */
  readonly axis: 'x' | 'y' | 'z' | Vec3;
  /** Size as drawn, mm. */
  readonly nominal: number;
  /** Middle of the feature. */
  readonly at: Vec3;
  /** Where the two jaws touch. */
  readonly callout: readonly [Vec3, Vec3];
  /** How it is expected to print. */
  readonly measurand: Measurand;
  /** How it is read; `from` and `to` are what a printed feature can plausibly be. */
  readonly reading: ReadingSpec;
  /** Readings asked for. */
  readonly times: number;
  /** Where and how to put the callipers, no full stop. */
  readonly tip: string;
}

/** The calibration print for one printer. */
export interface Coupon {
  readonly shape: Shape;
  /** In the order of measuring. */
  readonly features: readonly CouponFeature[];
}
