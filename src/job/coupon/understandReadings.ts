import { refusals } from '../../measure/index.ts';
import type { Callipers } from '../../measure/types.ts';
import { swapped } from '../../printer/calibration/mistakeIn.ts';
import type { CouponReadings, TypedReading } from '../../printer/calibration/types.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { formatNumber, parseLength } from '../../units/index.ts';
import { allowedNames } from '../nearest.ts';
import { type Problem, Refused } from '../problem.ts';
import type { RawReading, RawReadings } from '../readings/rawReadings.ts';
import { readingLimit } from '../readings/readingLimit.ts';
import { shown } from '../zodProblems.ts';

/** Looks up what raw readings are readings of, and what lengths they are. `unit` is meant where a text has none.
 *  Throws `Refused` with every problem: unknown features, features named twice, texts that are no length, lengths that
 *  the feature cannot have, and nothing read at all unless `atLeast` is none. */
export function understandReadings(
  raw: RawReadings,
  features: readonly CouponFeature[],
  callipers: Callipers,
  unit: 'mm' | 'in',
  atLeast: 'one' | 'none' = 'one',
): CouponReadings {
  const problems: Problem[] = [];
  const readings: Record<string, TypedReading[]> = {};
  const mayTake = readingLimit('feature', problems);
  for (const each of raw.readings) {
    const feature = featureNamed(each.feature, features);
    if (feature === undefined) {
      problems.push(unknownFeature(each, features));
      continue;
    }
    if (raw.once && readings[feature.id] !== undefined) {
      problems.push({
        code: 'feature_twice',
        field: each.where,
        value: shown(each.feature),
        allowed: 'each feature once, with all its readings in one list',
        reason: `(${feature.reading.name}) is there already as ${feature.id} or ${feature.number}`,
      });
      continue;
    }
    if (!mayTake(feature.id, each)) continue;
    const lengths = each.texts.flatMap((text, k) => {
      const field = `${each.where}: ${feature.id}${each.texts.length > 1 ? `[${k}]` : ''}`;
      return lengthOf(text, feature, field, callipers, unit, problems) ?? [];
    });
    readings[feature.id] = [...(readings[feature.id] ?? []), ...lengths];
  }
  const nothing = Object.values(readings).every(({ length }) => length === 0);
  if (problems.length === 0 && nothing && atLeast === 'one') {
    problems.push({
      code: 'no_readings',
      field: '',
      value: 'no reading at all',
      allowed: `readings of ${features[0]!.id} and the other ${features.length - 1} features of the coupon`,
    });
  }
  if (problems.length > 0) throw new Refused(problems);
  return readings;
}

/** The feature of that id or number. */
function featureNamed(name: string, features: readonly CouponFeature[]): CouponFeature | undefined {
  const plain = name.trim().toLowerCase();
  const number = /^#?(\d{1,4})$/.exec(plain)?.[1];
  return (
    features.find(({ id }) => id === plain) ??
    (number === undefined ? undefined : features.find((feature) => feature.number === Number(number)))
  );
}

function unknownFeature({ feature, where }: RawReading, features: readonly CouponFeature[]): Problem {
  const numbers = features.map(({ number }) => number);
  return {
    code: 'feature_unknown',
    field: where,
    value: shown(feature),
    allowed: /^#?\d+$/.test(feature.trim())
      ? `${Math.min(...numbers)} to ${Math.max(...numbers)}`
      : allowedNames(
          feature,
          features.map(({ id }) => id),
        ),
    reason: feature === '' ? 'names no feature' : 'is no feature of this coupon',
  };
}

function lengthOf(
  text: string | number,
  feature: CouponFeature,
  field: string,
  callipers: Callipers,
  unit: 'mm' | 'in',
  problems: Problem[],
): TypedReading | undefined {
  const { reading } = feature;
  const parsed = parseLength(String(text), unit);
  if (!parsed.ok) {
    problems.push({
      code: 'reading_unclear',
      field,
      value: shown(text),
      allowed: parsed.allowed,
      reason: `(${reading.name}) ${parsed.reason}`,
    });
    return undefined;
  }
  const spec = { ...reading, id: feature.id };
  const typed = { mm: parsed.mm, text };
  const [refused] = refusals(spec, [parsed.mm], callipers);
  if (refused === undefined) return typed;
  const fitting = swapped(typed).filter((mm) => refusals(spec, [mm], callipers).length === 0);
  const swap =
    fitting.length === 1 ? `; two digits swapped? ${formatNumber(fitting[0]!)} mm would be inside` : '';
  problems.push({
    code: 'reading_range',
    field,
    value: shown(text),
    allowed: refused.allowed,
    reason: `(${reading.name}) ${refused.reason}${refused.slip === undefined ? swap : ''}`,
  });
  return undefined;
}
