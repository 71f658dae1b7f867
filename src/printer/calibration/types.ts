import type { Known, Parameter, PrinterProfile } from '../types.ts';

/** One reading of the coupon: what the callipers showed in mm, and as it was typed. */
export interface TypedReading {
  readonly mm: number;
  readonly text: string | number;
}

/** Readings of a coupon by the id of its features. A bare number is mm, typed so. */
export type CouponReadings = Readonly<Record<string, readonly (number | TypedReading)[]>>;

/** A parameter before and after. */
export interface CalibratedParameter extends Known {
  readonly parameter: Parameter;
  /** What it was taken for without the coupon. */
  readonly prior: Known;
  /** Whether the coupon told more than was known: false where more than half of the prior variance is left. */
  readonly determined: boolean;
}

/** One feature against the fitted printer, mm. */
export interface FeatureResidual {
  /** Id of the feature. */
  readonly feature: string;
  readonly measured: number;
  /** As the fitted printer would print it. */
  readonly expected: number;
  /** measured - expected */
  readonly residual: number;
  /** Residual over its own standard deviation. */
  readonly standardised: number;
  /** The same against a fit in which the feature has no say: measured - expected over `u`. */
  readonly deleted: number;
  /** Standard uncertainty of that difference, mm: print, reading, fit and callipers. */
  readonly u: number;
  /** True where none of its readings went into the fit. */
  readonly leftOut: boolean;
}

/** What may have happened to a reading that does not fit. */
export type Mistake =
  | 'digits-swapped'
  | 'decimal-slipped'
  | 'wrong-unit'
  | 'exchanged'
  | 'one-of-several'
  | 'unexplained';

/** A reading that does not fit the picture. */
export interface DoubtfulReading {
  /** Id of the feature. */
  readonly feature: string;
  /** Number on the coupon. */
  readonly number: number;
  /** Which of its readings, from 0; null: all of them. */
  readonly reading: number | null;
  /** As typed; several joined by commas. */
  readonly text: string;
  /** What the callipers should have shown, mm, and the expanded uncertainty (k = 2) of a single such reading. */
  readonly expected: number;
  readonly U: number;
  /** Its distance from that in standard deviations, its own say left out. */
  readonly deleted: number;
  readonly mistake: Mistake;
  /** What was probably meant, mm as the callipers show it; null when nothing is likely. */
  readonly likely: number | null;
  /** True: too far off to be a reading of this feature, so the fit does without it. */
  readonly leftOut: boolean;
  /** All of it in one; no full stop. */
  readonly sentence: string;
}

/** Something worth hearing about a calibration that is no single reading's fault. */
export interface CalibrationRemark {
  readonly kind: 'implausible' | 'scatter' | 'few';
  /** Parameter concerned, where it is one. */
  readonly parameter?: Parameter;
  readonly sentence: string;
}

/** What the readings of a coupon say about a printer. */
export interface CalibrationReport {
  readonly profile: PrinterProfile;
  readonly parameters: readonly CalibratedParameter[];
  /** Standard deviation from print to print of one size, mm, and its degrees of freedom, as the residuals alone say; the
   *  profile carries what is believed of it. */
  readonly repeatability: { readonly value: number; readonly dof: number };
  /** Features read, in the order of the coupon. */
  readonly residuals: readonly FeatureResidual[];
  /** The furthest off first. */
  readonly doubtful: readonly DoubtfulReading[];
  /** What is left of the observations once the parameters have taken their share; not whole, as priors share too. */
  readonly degreesOfFreedom: number;
  readonly remarks: readonly CalibrationRemark[];
}
