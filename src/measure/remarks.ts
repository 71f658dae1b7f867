import { excessSpread } from './excessSpread.ts';
import { likelyNominals } from './likelyNominals.ts';
import { outliers } from './outliers.ts';
import { type ReadingSpec, unitOf, withUnit } from './readingSpec.ts';
import { mean, median } from './statistics.ts';
import type { Remark } from './types.ts';
import { slipSentence, unitSlipBetween, unitSlipInRange } from './unitSlip.ts';

/** What a person should hear about readings that were used all the same. `readings` corrected, `sigma0`
 *  what one of them is known to scatter by (0 for an entered value), `U` the expanded uncertainty of their
 *  mean. A reading is told about once, under the gravest heading: unit slip, implausible, outlier. Spread
 *  is judged on the readings nothing else was said about. The nominal size is for information. */
export function remarksOn(
  spec: ReadingSpec,
  readings: readonly number[],
  sigma0: number,
  U: number,
): readonly Remark[] {
  const remarks = [...slipRemarks(spec, readings)];
  const told = () => new Set(remarks.map((remark) => remark.index));
  const alreadyTold = told();
  remarks.push(...implausibleRemarks(spec, readings).filter((remark) => !alreadyTold.has(remark.index)));
  const graver = told();
  remarks.push(...outlierRemarks(spec, readings, sigma0).filter((remark) => !graver.has(remark.index)));
  const apart = told();
  remarks.push(
    ...spreadRemarks(
      spec,
      readings.filter((_, index) => !apart.has(index)),
      sigma0,
    ),
  );
  remarks.push(...nominalRemarks(spec, readings, U));
  return remarks;
}

const ordinal = (index: number) => `reading ${index + 1}`;

function slipRemarks(spec: ReadingSpec, readings: readonly number[]): readonly Remark[] {
  if (unitOf(spec) !== 'mm') return [];
  return readings.flatMap((value, index) => {
    const others = readings.filter((_, other) => other !== index);
    const rest = others.length > 0 ? median(others) : undefined;
    // Of two readings either may be the wrong one; the one outside the range is, or else the second.
    const between =
      rest !== undefined && (readings.length > 2 || index === 1) ? unitSlipBetween(value, rest) : undefined;
    const inRange = unitSlipInRange(value, spec.from, spec.to);
    const slip = inRange ?? between;
    if (slip === undefined) return [];
    const expected =
      inRange !== undefined || rest === undefined
        ? `${withUnit(spec.from, '1')} to ${withUnit(spec.to, 'mm')}`
        : `${withUnit(rest, 'mm')}, as the other readings say`;
    const sentence =
      `${spec.name}: ${ordinal(index)} is ${withUnit(value, 'mm')}, expected ${expected}; ` +
      `${slipSentence(slip)} (it would be ${withUnit(slip.likely, 'mm')})`;
    return [{ kind: 'unit-slip' as const, index, value, expected, sentence }];
  });
}

function implausibleRemarks(spec: ReadingSpec, readings: readonly number[]): readonly Remark[] {
  const unit = unitOf(spec);
  const expected = `${withUnit(spec.from, '1')} to ${withUnit(spec.to, unit)}`;
  return readings.flatMap((value, index) => {
    if (value >= spec.from && value <= spec.to) return [];
    const sentence = `${spec.name}: ${ordinal(index)} is ${withUnit(value, unit)}, expected ${expected}`;
    return [{ kind: 'implausible' as const, index, value, expected, sentence }];
  });
}

function outlierRemarks(spec: ReadingSpec, readings: readonly number[], sigma0: number): readonly Remark[] {
  if (spec.jaw === 'entered') return [];
  return outliers(readings, sigma0).map(({ index, median: middle, distance, limit }) => {
    const expected = `within ${withUnit(limit, 'mm')} of ${withUnit(middle, 'mm')}`;
    const sentence =
      `${spec.name}: ${ordinal(index)} is ${withUnit(readings[index]!, 'mm')}, ` +
      `${withUnit(distance, 'mm')} from the middle of the readings, expected ${expected}; read it again`;
    return { kind: 'outlier' as const, index, value: readings[index]!, expected, sentence };
  });
}

function spreadRemarks(spec: ReadingSpec, readings: readonly number[], sigma0: number): readonly Remark[] {
  if (spec.jaw === 'entered') return [];
  const spread = excessSpread(readings, sigma0);
  if (spread === undefined) return [];
  const expected = `at most ${withUnit(spread.limit, 'mm')}`;
  const sentence =
    `${spec.name}: the readings scatter with a standard deviation of ${withUnit(spread.s, 'mm')}, ` +
    `expected ${expected}; the place may be worn, soft or out of round`;
  return [{ kind: 'spread', value: spread.s, expected, sentence }];
}

function nominalRemarks(spec: ReadingSpec, readings: readonly number[], U: number): readonly Remark[] {
  if (spec.jaw === 'entered') return [];
  const value = mean([...readings]);
  const nominals = likelyNominals(value, U, spec.nominals);
  if (nominals.length === 0) return [];
  const expected = nominals.map(({ text }) => text).join(' or ');
  const sentence = `${spec.name} is ${withUnit(value, 'mm')}; the maker likely meant ${expected}`;
  return [{ kind: 'nominal', value, expected, sentence }];
}
