import { correctedReading } from '../../measure/correctedReading.ts';
import { mean } from '../../measure/statistics.ts';
import type { Callipers } from '../../measure/types.ts';
import { formatNumber } from '../../units/index.ts';
import type { CouponFeature } from '../coupon/feature.ts';
import { EXPLAINED, type Explanation, mistakeIn } from './mistakeIn.ts';
import type { DoubtfulReading, TypedReading } from './types.ts';

/** A feature with all that was read of it, at least one reading. */
export interface ReadFeature {
  readonly feature: CouponFeature;
  readonly readings: readonly TypedReading[];
}

/** A reading, or all of a feature's, under suspicion. */
export interface Suspect {
  readonly entry: number;
  /** Null: all of them. */
  readonly reading: number | null;
  /** Size that the feature should have, and how far off an honest reading of it may be, mm. */
  readonly expected: number;
  readonly deviation: number;
  /** Measured minus expected over the deviation. */
  readonly deleted: number;
  /** Entry of a feature that may be the wrong one instead. */
  readonly rival?: number;
}

/** Standard deviations beyond which a reading is no reading of its feature, and the fit does without it: once in half
 *  a billion honest ones. Below, it is kept and said. Our judgement, no source. */
const NEVER = 6;

/** The same where a slip of the pen or the eye would put it right. */
const NEVER_BUT_FOR_A_SLIP = 4.5;

/** What is to be said of a suspect, and whether the fit does without it. */
export function describedSuspect(
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
  const text = told.map((reading) => String(reading.text)).join(', ');
  const likely = explanation?.likely ?? (mistake === 'exchanged' ? expected : null);
  const leftOut = Math.abs(suspect.deleted) > (likely === null ? NEVER : NEVER_BUT_FOR_A_SLIP);
  const U = 2 * suspect.deviation;
  const what = {
    'digits-swapped': 'two digits swapped?',
    'decimal-slipped': 'decimal point slipped?',
    'wrong-unit': 'wrong unit?',
    exchanged: `exchanged with ${other?.reading.name}?`,
    'one-of-several': `the other${readings.length === 2 ? '' : 's'} of its ${readings.length} readings fit${readings.length === 2 ? 's' : ''}; read it again`,
    unexplained: 'read it again',
  }[mistake];
  const would = explanation === undefined ? '' : ` ${formatNumber(explanation.likely)} would fit`;
  const rival = suspect.rival === undefined ? undefined : features[suspect.rival]!.feature.reading.name;
  const either = rival === undefined ? '' : `; or it is ${rival} that is wrong`;
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
      `${formatNumber(expected)} +- ${formatNumber(U)} mm): ${what}${would}${either}; ${leftOut ? 'left out' : 'kept'}`,
  };
}

/** Standard deviations that a reading of `mm` would be off what the suspect should have shown. */
export function offBy(
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
