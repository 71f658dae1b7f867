import { correctedReading } from '../../measure/correctedReading.ts';
import { dimensionOf, resolutionUncertainty } from '../../measure/index.ts';
import { outliers } from '../../measure/outliers.ts';
import { mean } from '../../measure/statistics.ts';
import type { Callipers } from '../../measure/types.ts';
import { formatNumber } from '../../units/index.ts';
import type { CouponFeature } from '../coupon/feature.ts';
import type { Known, PrinterProfile } from '../types.ts';
import { residualOutside } from './deletedResidual.ts';
import { holdingFit } from './holdingFit.ts';
import { type Explanation, mistakeIn } from './mistakeIn.ts';
import { type Observation, observationOf } from './observation.ts';
import { oddityLimit } from './oddityLimit.ts';
import type { ParameterFit } from './parameterFit.ts';
import type { DoubtfulReading, TypedReading } from './types.ts';

/** A feature with all that was read of it, at least one reading. */
export interface ReadFeature {
  readonly feature: CouponFeature;
  readonly readings: readonly TypedReading[];
}

/** What a calibration needs beside the readings. */
export interface Bench {
  readonly callipers: Callipers;
  readonly profile: PrinterProfile;
  readonly prior: readonly Known[];
}

/** Standard deviations beyond which a reading is no reading of its feature, and the fit does without it: once in half
 *  a billion honest ones. Below, it is kept and said. Our judgement, no source. */
const NEVER = 6;

/** Distance between two readings of one feature that an honest hand does not show, in standard deviations of their
 *  difference; the same as between a reading and the middle of several (`outliers`). */
const APART = 3.5;

/** A reading, or all of a feature's, under suspicion. */
interface Suspect {
  readonly entry: number;
  /** Null: all of them. */
  readonly reading: number | null;
  /** Size that the feature should have, and how far off an honest reading of it may be, mm. */
  readonly expected: number;
  readonly deviation: number;
  /** Measured minus expected over the deviation. */
  readonly deleted: number;
}

/** Finds the readings that do not fit, says what may have happened to them, and which readings the fit should use: by
 *  feature, indices of those kept. What is doubtful and not beyond belief is kept. */
export function judgeReadings(
  features: readonly ReadFeature[],
  bench: Bench,
): { readonly kept: readonly (readonly number[])[]; readonly doubtful: readonly DoubtfulReading[] } {
  const sigma = Math.hypot(bench.callipers.repeatability, resolutionUncertainty(bench.callipers.resolution));
  const sizes = features.map(({ feature, readings }) =>
    readings.map(({ mm }) => correctedReading(feature.reading, mm, bench.callipers).value),
  );
  const apart = sizes.map((each) => new Set(outliers(each, sigma).map(({ index }) => index)));
  const agreeing = sizes.map((each, entry) => each.flatMap((_, k) => (apart[entry]!.has(k) ? [] : [k])));
  // Of two readings that disagree either may be wrong, so the others judge both.
  const split = sizes.map(
    (each) => each.length === 2 && Math.abs(each[0]! - each[1]!) > APART * Math.SQRT2 * sigma,
  );
  const whole = features.flatMap((_, entry) => (split[entry] ? [] : [entry]));
  const observe = (entry: number, of: readonly number[]) => observationFrom(features[entry]!, of, bench);
  const { fit, aside } = holdingFit(
    whole.map((entry) => observe(entry, agreeing[entry]!)),
    bench.prior,
  );
  const limit = oddityLimit(fit.scatter.dof, features.length);

  const suspects: Suspect[] = [];
  const within = (entry: number, reading: number): void => {
    const others = sizes[entry]!.filter((_, k) => k !== reading && !apart[entry]!.has(k));
    const expected = mean(others);
    const deviation = sigma * Math.sqrt(1 + 1 / others.length);
    const deleted = (sizes[entry]![reading]! - expected) / deviation;
    suspects.push({ entry, reading, expected, deviation, deleted });
  };
  for (const entry of features.keys()) for (const reading of apart[entry]!) within(entry, reading);
  for (const [entry, isSplit] of split.entries()) {
    if (!isSplit) continue;
    const far = [0, 1].map((k) => Math.abs(against(fit, observe(entry, [k])).deleted));
    within(entry, far[0]! > far[1]! ? 0 : 1);
    if (Math.min(...far) > limit)
      suspects.push({ entry, reading: null, ...against(fit, observe(entry, [0, 1])) });
  }
  for (const place of aside) {
    const entry = whole[place]!;
    const members = agreeing[entry]!;
    const one = members.length > 1 ? oneToBlame(entry, members) : members[0]!;
    const blamed = one ?? null;
    suspects.push({
      entry,
      reading: blamed,
      ...against(fit, observe(entry, blamed === null ? members : [blamed])),
    });
  }

  function oneToBlame(entry: number, members: readonly number[]): number | undefined {
    const rests = members
      .map((k) => ({
        k,
        off: Math.abs(
          against(
            fit,
            observe(
              entry,
              members.filter((other) => other !== k),
            ),
          ).deleted,
        ),
      }))
      .sort((a, b) => a.off - b.off);
    return rests[0]!.off <= limit / 2 ? rests[0]!.k : undefined;
  }

  const doubtful = suspects
    .sort((a, b) => Math.abs(b.deleted) - Math.abs(a.deleted))
    .map((suspect) => described(suspect, suspects, features, bench.callipers));
  const kept = features.map(({ feature, readings }) => {
    const out = doubtful.filter((each) => each.feature === feature.id && each.leftOut);
    return readings.flatMap((_, k) =>
      out.some(({ reading }) => reading === null || reading === k) ? [] : [k],
    );
  });
  return { kept, doubtful };
}

/** The observation that some of a feature's readings make. */
export function observationFrom(
  { feature, readings }: ReadFeature,
  of: readonly number[],
  { callipers, profile, prior }: Bench,
): Observation {
  const values = of.map((k) => readings[k]!.mm);
  const spec = { ...feature.reading, id: feature.id };
  return observationOf(feature, dimensionOf(spec, values, callipers), profile, prior);
}

function against(
  fit: ParameterFit,
  observation: Observation,
): Pick<Suspect, 'expected' | 'deviation' | 'deleted'> {
  const { difference, deviation } = residualOutside(fit, observation);
  return { expected: observation.dimension.value - difference, deviation, deleted: difference / deviation };
}

function described(
  suspect: Suspect,
  suspects: readonly Suspect[],
  features: readonly ReadFeature[],
  callipers: Callipers,
): DoubtfulReading {
  const { feature, readings } = features[suspect.entry]!;
  const told = suspect.reading === null ? readings : [readings[suspect.reading]!];
  const expected = shownFor(feature, suspect.expected, callipers);
  const other = exchangedWith(suspect, suspects, features, callipers);
  const slips = told.map((reading) => mistakeIn(reading, (mm) => offBy(suspect, feature, mm, callipers)));
  const slip = slips.every((each) => each?.mistake === slips[0]?.mistake) ? slips[0] : undefined;
  const grossSlip = slip?.mistake === 'decimal-slipped' || slip?.mistake === 'wrong-unit';
  const explanation: Explanation | undefined = grossSlip || other === undefined ? slip : undefined;
  const mistake =
    explanation?.mistake ??
    (other !== undefined ? 'exchanged' : told.length < readings.length ? 'one-of-several' : 'unexplained');
  const leftOut = Math.abs(suspect.deleted) > NEVER;
  const text = told.map((reading) => String(reading.text)).join(', ');
  const likely = explanation?.likely ?? (mistake === 'exchanged' ? expected : null);
  const U = 2 * suspect.deviation;
  const what = {
    'digits-swapped': 'two digits swapped?',
    'decimal-slipped': 'decimal point slipped?',
    'wrong-unit': 'wrong unit?',
    exchanged: `exchanged with ${other?.reading.name}?`,
    'one-of-several': `the other${readings.length === 2 ? '' : 's'} of its ${readings.length} readings fit${readings.length === 2 ? 's' : ''}; read it again`,
    unexplained: 'read it again',
  }[mistake];
  const would =
    explanation === undefined ? '' : ` ${formatNumber(explanation.likely, callipers.resolution)} would fit`;
  return {
    feature: feature.id,
    number: feature.number,
    reading: suspect.reading,
    text,
    expected,
    U,
    deleted: suspect.deleted,
    mistake,
    likely,
    leftOut,
    sentence:
      `${feature.reading.name}: "${text}" does not fit (expected ` +
      `${formatNumber(expected)} +- ${formatNumber(U)} mm): ${what}${would}${leftOut ? '; left out' : '; kept'}`,
  };
}

/** Standard deviations that a reading of `mm` would be off what the suspect should have shown. */
function offBy(
  { expected, deviation }: Suspect,
  { reading }: CouponFeature,
  mm: number,
  callipers: Callipers,
): number {
  const { jaws, value } = correctedReading(reading, mm, callipers);
  return jaws > 0 ? (value - expected) / deviation : Infinity;
}

/** What callipers show for a size: the correction of a reading, backwards. */
function shownFor({ reading }: CouponFeature, size: number, callipers: Callipers): number {
  const round = reading.jaw === 'inside' && reading.round === true;
  return (round ? Math.sqrt(Math.max(0, size ** 2 - callipers.landWidth ** 2)) : size) + callipers.zero;
}

/** A feature whose suspect readings fit here, while those of here fit there. */
function exchangedWith(
  suspect: Suspect,
  suspects: readonly Suspect[],
  features: readonly ReadFeature[],
  callipers: Callipers,
): CouponFeature | undefined {
  const EXPLAINED = 3;
  const shown = ({ entry, reading }: Suspect): number => {
    const { readings } = features[entry]!;
    return reading === null ? mean(readings.map(({ mm }) => mm)) : readings[reading]!.mm;
  };
  const other = suspects.find((candidate) => {
    if (candidate.entry === suspect.entry) return false;
    const here = offBy(suspect, features[suspect.entry]!.feature, shown(candidate), callipers);
    const there = offBy(candidate, features[candidate.entry]!.feature, shown(suspect), callipers);
    return Math.abs(here) <= EXPLAINED && Math.abs(there) <= EXPLAINED;
  });
  return other === undefined ? undefined : features[other.entry]!.feature;
}
