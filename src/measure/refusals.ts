import { LONGEST_CALLIPER_LENGTH } from '../standards/callipers.ts';
import { MILLIMETRES_PER_INCH } from '../units/index.ts';
import { correctedReading } from './correctedReading.ts';
import { type ReadingSpec, unitOf, withUnit } from './readingSpec.ts';
import type { Callipers } from './types.ts';
import { slipSentence, type UnitSlip, unitSlipInRange } from './unitSlip.ts';

/** A value that cannot be used at all. Reads as "FIELD REASON (given VALUE; allowed ALLOWED)". */
export interface RefusedReading {
  readonly code: 'not-finite' | 'not-above-0' | 'too-long' | 'not-whole' | 'below' | 'above' | 'several';
  /** Index of the value, from 0. */
  readonly index: number;
  /** The value as given, in the unit of the quantity. */
  readonly value: number;
  /** "0.8 to 4 mm" */
  readonly allowed: string;
  /** Continues a sentence that begins with the name of the field; no full stop. */
  readonly reason: string;
  /** Present where the wrong unit would explain it. */
  readonly slip?: UnitSlip;
  /** All of it in one, beginning with the name on the sheet; no full stop. */
  readonly sentence: string;
}

/** Longest length that can be entered, mm; nothing near it is printed in one piece. */
const LONGEST_LENGTH = 2000;

/** The values of one dimension that cannot be used, in the order given; empty when all can. Not finite,
 *  not above 0 (callipers), longer than callipers are (1000 mm, entered lengths 2000 mm), or outside the
 *  plausible range. An entered value is given once. What is inside the range is never refused: doubts
 *  about it are remarks of `dimensionOf`. With `callipers` the zero offset and the land of the inside jaws
 *  are taken out before looking at the range. Never throws.
 *  @example refusals({ id: 'bar', name: 'Bar', jaw: 'outside', from: 0.8, to: 4 }, [40.64])[0]?.slip
 *  // => { kind: 'millimetres-as-inches', likely: 1.6 } */
export function refusals(
  spec: ReadingSpec,
  values: readonly number[],
  callipers?: Callipers,
): readonly RefusedReading[] {
  return values.flatMap((value, index) => refusal(spec, value, index, callipers) ?? []);
}

function refusal(
  spec: ReadingSpec,
  value: number,
  index: number,
  callipers: Callipers | undefined,
): RefusedReading | undefined {
  const unit = unitOf(spec);
  const allowed = `${withUnit(spec.from, '1')} to ${withUnit(spec.to, unit)}`;
  const refuse = (code: RefusedReading['code'], reason: string, slip?: UnitSlip): RefusedReading => ({
    code,
    index,
    value,
    allowed,
    reason,
    ...(slip === undefined ? {} : { slip }),
    sentence: `${spec.name} ${reason} (given ${withUnit(value, unit, 4)}; allowed ${allowed})`,
  });

  if (!Number.isFinite(value)) return refuse('not-finite', 'is no finite number');
  if (spec.jaw === 'entered' && index > 0)
    return refuse('several', 'is entered once, not read several times');
  const corrected = callipers === undefined ? value : correctedReading(spec, value, callipers).value;
  if (spec.jaw !== 'entered' && (value <= 0 || corrected <= 0)) {
    return refuse('not-above-0', value <= 0 ? 'is not above 0' : 'is not above 0 once the zero is taken off');
  }
  if (spec.quantity === 'count' && !Number.isInteger(value)) return refuse('not-whole', 'is no whole number');

  const below = corrected < spec.from;
  const above = corrected > spec.to;
  if (unit !== 'mm') return below || above ? refuse(below ? 'below' : 'above', sideOf(below)) : undefined;

  const longest = spec.jaw === 'entered' ? LONGEST_LENGTH : LONGEST_CALLIPER_LENGTH;
  // A range that reaches beyond the callipers would let any other unit explain the value; it does not.
  const slip = below || above ? unitSlipInRange(corrected, spec.from, Math.min(spec.to, longest)) : undefined;
  if (slip !== undefined) {
    const step = slip.kind === 'inches-as-millimetres' ? 'times' : 'divided by';
    const likely = withUnit(slip.likely, unit, 4);
    const reason = `${sideOf(below)}; ${step} ${MILLIMETRES_PER_INCH} it would be ${likely}, so ${slipSentence(slip)}`;
    return refuse(below ? 'below' : 'above', reason, slip);
  }
  if (corrected > longest) return refuse('too-long', `is longer than ${longest} mm`);
  return below || above ? refuse(below ? 'below' : 'above', sideOf(below)) : undefined;
}

function sideOf(below: boolean): string {
  return below ? 'is below the plausible range' : 'is above the plausible range';
}
