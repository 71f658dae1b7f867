import { LONGEST_CALLIPER_LENGTH } from '../standards/callipers.ts';
import { correctedReading } from './correctedReading.ts';
import { type ReadingSpec, unitOf, withUnit } from './readingSpec.ts';
import { median } from './statistics.ts';
import type { Callipers } from './types.ts';
import { type Slip, slipBeside, slipSentence, slipStep, unitSlipInRange } from './unitSlip.ts';

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
  /** Present where the wrong unit would explain it, or a point in the wrong place. */
  readonly slip?: Slip;
  /** All of it in one, beginning with the name on the sheet; no full stop. */
  readonly sentence: string;
}

/** Longest length that can be entered, mm; nothing near it is printed in one piece. */
const LONGEST_LENGTH = 2000;

/** The values of one dimension that cannot be used, in the order given; empty when all can. Not finite,
 *  not above 0 (callipers), longer than callipers are (1000 mm, entered lengths 2000 mm), or outside the
 *  plausible range. An entered value is given once. What is inside the range is never refused: doubts
 *  about it are remarks of `dimensionOf`. With `callipers` the zero offset and the land of the inside jaws
 *  are taken out before looking at the range. `beside` are further readings of the same thing, not judged here: a slip
 *  that would explain a value has to agree with the others inside the range, where there are any. Never throws.
 *  @example refusals({ id: 'bar', name: 'Bar', jaw: 'outside', from: 0.8, to: 4 }, [40.64])[0]?.slip
 *  // => { kind: 'millimetres-as-inches', likely: 1.6 } */
export function refusals(
  spec: ReadingSpec,
  values: readonly number[],
  callipers?: Callipers,
  beside: readonly number[] = [],
): readonly RefusedReading[] {
  const correct = (value: number) =>
    callipers === undefined ? value : correctedReading(spec, value, callipers).value;
  // Asked for only where something is to be explained.
  const others = (): number | undefined => {
    const usable = [...values, ...beside].filter((value) => isPlausible(spec, correct(value)));
    return usable.length > 0 ? median(usable) : undefined;
  };
  return values.flatMap((value, index) => refusal(spec, value, index, correct, others) ?? []);
}

function refusal(
  spec: ReadingSpec,
  value: number,
  index: number,
  correct: (value: number) => number,
  others: () => number | undefined,
): RefusedReading | undefined {
  const unit = unitOf(spec);
  const allowed = `${withUnit(spec.from, '1')} to ${withUnit(spec.to, unit)}`;
  const refuse = (code: RefusedReading['code'], reason: string, slip?: Slip): RefusedReading => ({
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
  const corrected = correct(value);
  if (spec.jaw !== 'entered' && (value <= 0 || corrected <= 0)) {
    return refuse('not-above-0', value <= 0 ? 'is not above 0' : 'is not above 0 once the zero is taken off');
  }
  if (spec.quantity === 'count' && !Number.isInteger(value)) return refuse('not-whole', 'is no whole number');

  const longest = spec.jaw === 'entered' ? LONGEST_LENGTH : LONGEST_CALLIPER_LENGTH;
  const tooLong = unit === 'mm' && corrected > longest;
  if (isPlausible(spec, corrected))
    return tooLong ? refuse('too-long', `is longer than ${longest} mm`) : undefined;

  const below = corrected < spec.from;
  const [code, side] = [below ? 'below' : 'above', sideOf(below)] as const;
  if (unit !== 'mm') return refuse(code, side);
  const rest = others();
  // A range that reaches beyond the callipers would let any other unit explain the value; it does not.
  const to = Math.min(spec.to, longest);
  const slip = rest === undefined ? unitSlipInRange(corrected, spec.from, to) : slipBeside(value, rest);
  if (slip === undefined)
    return tooLong ? refuse('too-long', `is longer than ${longest} mm`) : refuse(code, side);
  const likely = withUnit(slip.likely, unit, 4);
  const said = rest === undefined ? likely : `${likely}, as the other readings say`;
  return refuse(code, `${side}; ${slipStep(slip)} it would be ${said}, so ${slipSentence(slip)}`, slip);
}

const isPlausible = ({ from, to }: ReadingSpec, value: number): boolean => value >= from && value <= to;

function sideOf(below: boolean): string {
  return below ? 'is below the plausible range' : 'is above the plausible range';
}
