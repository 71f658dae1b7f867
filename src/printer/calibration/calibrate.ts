import type { Callipers } from '../../measure/types.ts';
import type { CouponFeature } from '../coupon/feature.ts';
import { withKnown } from '../parameters.ts';
import { type Calibration, type Known, PARAMETERS, type PrinterProfile } from '../types.ts';
import { believedScatter } from './believedScatter.ts';
import { deletedResidual, residualOutside } from './deletedResidual.ts';
import type { ReadFeature } from './describedSuspect.ts';
import { fitPastPrior } from './fitPastPrior.ts';
import { type Bench, judgeReadings, observationFrom } from './judgeReadings.ts';
import { dot, type ParameterFit } from './parameterFit.ts';
import { plausibilityRemarks } from './plausible.ts';
import { priorOf } from './priorOf.ts';
import { scatterEvidence } from './scatterEvidence.ts';
import type {
  CalibrationRemark,
  CalibrationReport,
  CouponReadings,
  FeatureResidual,
  TypedReading,
} from './types.ts';

/** The first layer comes out a little different each time the bed is levelled or warmed, and a coupon sees one day:
 *  standard uncertainty it keeps, mm. Common practice, no source. */
const FIRST_LAYER_DAY = 0.02;

/** Share of the prior variance that may be left of a parameter said to be determined. */
const DETERMINED = 0.5;

/** Readings below which a calibration is called thin: one for every parameter. */
const FEW = PARAMETERS.length;

/** Fits a printer's behaviour to the readings of its coupon. Pure: same input, same report.
 *
 *  Every feature read becomes a dimension (zero and lands taken out), every dimension an observation of the linear
 *  model that `predictedSize` is. Weighted least squares over all of them at once, together with the prior of a printer
 *  that nobody has measured; so a parameter that no reading tells about keeps its prior, value and doubt. The scatter
 *  of prints is estimated alongside. What one pair of callipers did to all readings alike no residual shows: it is
 *  carried through exactly, one entry of `calibration.shared` a cause, so that a later fit measured with the same
 *  callipers can set it against what they did to the machine. `u` of a parameter holds both.
 *  Readings that do not fit are named, with the slip that would explain them; only those beyond belief are left out.
 *
 *  `features` as `coupon(profile)` gives them; `readings` in mm by feature id, features without readings left out or
 *  empty; `date` YYYY-MM-DD. Readings must have passed `refusals`. Throws a RangeError for a feature that is not on the
 *  coupon, for no reading at all, and whatever `dimensionOf` throws.
 *  @example calibrate(defaultPrinter, coupon(defaultPrinter).features, { 'bore.1': [1.31] }, defaultCallipers,
 *    '2025-11-20').profile.calibrated // => '2025-11-20' */
export function calibrate(
  profile: PrinterProfile,
  features: readonly CouponFeature[],
  readings: CouponReadings,
  callipers: Callipers,
  date: string,
): CalibrationReport {
  const read = readFeatures(features, readings);
  const bench: Bench = { callipers, profile, prior: priorOf(profile) };
  const { kept, doubtful, fit: judged } = judgeReadings(read, bench);
  const used = read.flatMap((_, k) => (kept[k]!.length > 0 ? [k] : []));
  const observations = judged?.observations ?? used.map((k) => observationFrom(read[k]!, kept[k]!, bench));
  const fit = fitPastPrior(observations, bench.prior, judged);

  const scatter = believedScatter(scatterEvidence(fit.observations, fit.prior), fit.scatter);
  const calibration = calibrationOf(fit, scatter.dof, callipers, read);
  const knowns = PARAMETERS.map((_, k): Known => {
    const fromCallipers = calibration.shared.reduce((sum, { shift }) => sum + shift[k]! ** 2, 0);
    return {
      value: clean(bench.prior[k]!.value + fit.shift[k]!),
      u: Math.sqrt(calibration.covariance[k]![k]! + fromCallipers),
    };
  });
  const calibrated: PrinterProfile = {
    ...withKnown(profile, Object.fromEntries(PARAMETERS.map((parameter, k) => [parameter, knowns[k]!]))),
    calibrated: date,
    repeatability: scatter.value,
    calibration,
  };
  return {
    profile: calibrated,
    parameters: PARAMETERS.map((parameter, k) => {
      const prior = bench.prior[k]!;
      const determined = knowns[k]!.u ** 2 <= DETERMINED * prior.u ** 2 && prior.u > 0;
      return { parameter, ...knowns[k]!, prior, determined };
    }),
    repeatability: fit.scatter,
    residuals: read.map((each, k) => residualOf(each, k, used, fit, bench)),
    doubtful,
    degreesOfFreedom: fit.hat.reduce((sum, h) => sum + 1 - h, 0),
    remarks: [...fewRemark(used.length, features.length), ...plausibilityRemarks(calibrated)],
  };
}

function readFeatures(features: readonly CouponFeature[], readings: CouponReadings): readonly ReadFeature[] {
  const unknown = Object.keys(readings).find((id) => !features.some((feature) => feature.id === id));
  if (unknown !== undefined)
    throw new RangeError(`calibration requires features of the coupon (given ${unknown})`);
  const typed = (reading: number | TypedReading): TypedReading =>
    typeof reading === 'number' ? { mm: reading, text: reading } : reading;
  const read = features
    .map((feature) => ({ feature, readings: (readings[feature.id] ?? []).map(typed) }))
    .filter((each) => each.readings.length > 0);
  if (read.length === 0) throw new RangeError('calibration requires at least 1 reading (given 0)');
  return read;
}

function calibrationOf(
  fit: ParameterFit,
  dof: number,
  callipers: Callipers,
  read: readonly ReadFeature[],
): Calibration {
  const firstLayer = PARAMETERS.indexOf('firstLayerError');
  // A parameter taken for exact stays so.
  const floor = fit.covariance[firstLayer]![firstLayer]! > 0 ? FIRST_LAYER_DAY ** 2 : 0;
  return {
    covariance: fit.covariance.map((row, k) =>
      row.map((_, l) =>
        k === l && k === firstLayer
          ? Math.max(row[l]!, floor)
          : clean((row[l]! + fit.covariance[l]![k]!) / 2),
      ),
    ),
    shared: fit.shared.map(({ id, label, shift }) => ({ id, label, shift: shift.map(clean) })),
    callipers: callipers.name,
    dof,
    readings: Object.fromEntries(
      read.map(({ feature, readings }) => [feature.id, readings.map(({ text }) => text)]),
    ),
  };
}

/** No negative zero, which JSON does not know. */
const clean = (value: number): number => value + 0;

function residualOf(
  each: ReadFeature,
  index: number,
  used: readonly number[],
  fit: ParameterFit,
  bench: Bench,
): FeatureResidual {
  const place = used.indexOf(index);
  if (place === -1) {
    const observation = observationFrom(each, [...each.readings.keys()], bench);
    const { difference, deviation } = residualOutside(fit, observation);
    const measured = observation.dimension.value;
    return {
      feature: each.feature.id,
      measured,
      expected: measured - difference,
      residual: difference,
      standardised: difference / deviation,
      deleted: difference / deviation,
      u: deviation,
      leftOut: true,
    };
  }
  const { dimension, variance, row } = fit.observations[place]!;
  const residual = fit.residuals[place]!;
  const common = fit.shared.reduce(
    (sum, { effects, shift }) => sum + (effects[place]! - dot(row, shift)) ** 2,
    0,
  );
  const own = (fit.scatter.value ** 2 + variance) * (1 - fit.hat[place]!);
  const deleted = deletedResidual(fit, place);
  return {
    feature: each.feature.id,
    measured: dimension.value,
    expected: dimension.value - residual,
    residual,
    standardised: residual / Math.sqrt(own + common),
    deleted: deleted.difference / deleted.deviation,
    u: deleted.deviation,
    leftOut: false,
  };
}

function fewRemark(used: number, of: number): readonly CalibrationRemark[] {
  if (used >= FEW) return [];
  return [
    {
      kind: 'few',
      sentence: `only ${used} of ${of} features went into this; what they do not tell is taken as for any printer`,
    },
  ];
}
