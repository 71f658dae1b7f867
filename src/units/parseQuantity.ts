import { power } from '../arithmetic/power.ts';
import { normaliseText } from './normaliseText.ts';
import { type Quantity, type QuantityGrammar, quantities, type Unit } from './quantity.ts';

/** Why a text was refused; stable, apart from the wording. */
export type RefusalCode =
  | 'blank'
  | 'too-long'
  | 'not-finite'
  | 'exponent'
  | 'no-number'
  | 'comma-and-point'
  | 'several-separators'
  | 'several-numbers'
  | 'missing-digits'
  | 'too-many-digits'
  | 'unit-refused'
  | 'unit-unknown'
  | 'fraction-without-unit'
  | 'fraction-of-unit'
  | 'fraction-malformed'
  | 'negative'
  | 'not-whole'
  | 'unclear';

/** A text understood: the value in the base unit of its quantity (mm, deg, degC, 1). */
export interface ParsedQuantity {
  readonly ok: true;
  readonly value: number;
  /** Symbol of the unit it was typed in, the default one where none was typed. */
  readonly unit: string;
}

/** A text refused. Reads as "FIELD REASON (given TEXT; allowed ALLOWED)". */
export interface RefusedText {
  readonly ok: false;
  readonly code: RefusalCode;
  /** Continues a sentence that begins with the name of the field; no full stop. */
  readonly reason: string;
  readonly allowed: string;
}

export interface ParseOptions {
  /** Symbol of the unit meant where none is typed; absent: the base unit. */
  readonly defaultUnit?: string;
  /** `any` lets a value below 0 through: a zero offset, say. Absent: as the quantity has it. */
  readonly sign?: 'positive' | 'any';
}

/** No reading needs more; a pasted page is refused before anything looks into it. */
const LONGEST_TEXT = 40;

/** Below 2^53 with room for the conversion, so that the arithmetic on whole numbers stays exact. */
const MOST_DIGITS = 11;

/** A typed number as two whole numbers, or why it is none. */
type Rational = { readonly numerator: number; readonly denominator: number; readonly fraction: boolean };

/** What a person typed, as a number in the base unit of the quantity. Decimal comma and decimal point are
 *  the same and neither ever groups thousands: `1,234` is a little over one. Fractions (`1/8`, `1 1/8`,
 *  `1-1/8`) are read in inches only. Never throws, never evaluates the text.
 *  @example parseQuantity('3/64 in', 'length') // => { ok: true, value: 1.190625, unit: 'in' }
 *  @example parseQuantity('1,5°', 'angle') // => { ok: true, value: 1.5, unit: 'deg' } */
export function parseQuantity(
  text: string,
  quantity: Quantity,
  options: ParseOptions = {},
): ParsedQuantity | RefusedText {
  const grammar = quantities[quantity];
  const allowed = `a ${grammar.noun} such as ${grammar.examples}`;
  const refuse = (code: RefusalCode, reason: string, allows = allowed): RefusedText => ({
    ok: false,
    code,
    reason,
    allowed: allows,
  });

  if (text.length > LONGEST_TEXT) return refuse('too-long', `has more than ${LONGEST_TEXT} characters`);
  const plain = normaliseText(text);
  if (plain === '') return refuse('blank', 'is blank');
  if (/^[+-]?\s?(nan|inf(inity)?|∞)\b|∞/.test(plain)) return refuse('not-finite', 'is no finite number');
  if (/\d\s?e\s?[+-]?\d/.test(plain)) {
    return refuse('exponent', 'is written with an exponent; write the number out');
  }

  // Sign, then everything a number is made of, then the rest, which can only be a unit.
  const parts = /^([+-]?)\s?([\d.,/\s-]*)(.*)$/.exec(plain)!;
  const number = parts[2]!.trim();
  const unitName = parts[3]!.trim();
  if (!/\d/.test(number)) {
    return refuse('no-number', 'does not begin with a number');
  }
  if (/\d/.test(unitName)) {
    // 1' 2" is feet and inches; its reason is better than that of any two numbers.
    const known = refusedUnit(grammar, unitName.split(/[\s\d]/)[0]!);
    if (known !== undefined) return refuse('unit-refused', known);
    return refuse('several-numbers', 'holds more than one number');
  }

  const known = refusedUnit(grammar, unitName);
  if (known !== undefined) return refuse('unit-refused', known);
  const unit = unitName === '' ? defaultUnit(grammar, options) : unitNamed(grammar, unitName);
  if (unit === undefined) {
    const symbols = grammar.units.map((each) => each.symbol).join(', ');
    return refuse('unit-unknown', `has a unit that is not one of ${symbols}`);
  }

  const rational = parseNumber(number);
  if ('code' in rational) return refuse(rational.code, rational.reason, rational.allowed ?? allowed);
  if (rational.fraction && !unit.fractions) {
    return unitName === ''
      ? refuse(
          'fraction-without-unit',
          'is a fraction without a unit',
          'fractions of an inch, such as 1/8 in',
        )
      : refuse('fraction-of-unit', `is a fraction of ${unit.symbol}; fractions are read in inches`);
  }

  const magnitude = (rational.numerator * unit.numerator) / (rational.denominator * unit.denominator);
  const negative = parts[1] === '-' && magnitude !== 0;
  const mayBeNegative = options.sign === undefined ? grammar.negative : options.sign === 'any';
  if (negative && !mayBeNegative) return refuse('negative', 'is below 0', `${allowed}, 0 or above`);
  if (grammar.whole && !Number.isInteger(magnitude)) return refuse('not-whole', 'is no whole number');
  return { ok: true, value: negative ? -magnitude : magnitude, unit: unit.symbol };
}

function defaultUnit(grammar: QuantityGrammar, options: ParseOptions): Unit | undefined {
  if (options.defaultUnit === undefined) return grammar.units[0];
  return grammar.units.find((unit) => unit.symbol === options.defaultUnit);
}

function unitNamed(grammar: QuantityGrammar, name: string): Unit | undefined {
  return grammar.units.find((unit) => unit.names.includes(name));
}

/** Own names only: `constructor` is no unit that anybody refused. */
function refusedUnit(grammar: QuantityGrammar, name: string): string | undefined {
  return Object.hasOwn(grammar.refused, name) ? grammar.refused[name] : undefined;
}

type NumberRefusal = { readonly code: RefusalCode; readonly reason: string; readonly allowed?: string };

/** The number without its sign and unit. */
function parseNumber(number: string): Rational | NumberRefusal {
  if ((number.match(/\d/g) ?? []).length > MOST_DIGITS) {
    return { code: 'too-many-digits', reason: `has more than ${MOST_DIGITS} digits` };
  }
  if (number.includes('/')) return parseFraction(number);
  if (number.includes(',') && number.includes('.')) {
    return {
      code: 'comma-and-point',
      reason: 'holds both a comma and a point, so which one is the decimal sign is unclear',
      allowed: 'one decimal comma or point and no thousands separator, such as 1234.5',
    };
  }
  if (/[.,][^.,]*[.,]/.test(number)) {
    return {
      code: 'several-separators',
      reason: 'holds more than one decimal sign',
      allowed: 'one decimal comma or point and no thousands separator, such as 1234.5',
    };
  }
  if (/\d[\s-]+[\d.,]|[.,][\s-]+\d/.test(number)) {
    return { code: 'several-numbers', reason: 'holds more than one number' };
  }
  if (/[.,]$/.test(number)) {
    // The digit that got lost would cost a part, so this is not read as a whole number.
    return { code: 'missing-digits', reason: 'ends in its decimal sign; a digit may be missing' };
  }
  const decimal = /^(\d*)(?:[.,](\d+))?$/.exec(number);
  if (decimal === null) return { code: 'unclear', reason: 'is not understood' };
  const digits = decimal[2] ?? '';
  return {
    numerator: Number(`${decimal[1]}${digits}`),
    denominator: power(10, digits.length),
    fraction: false,
  };
}

function parseFraction(number: string): Rational | NumberRefusal {
  const match = /^(?:(\d+)(?:\s|\s?-\s?))?(\d+)\s?\/\s?(\d+)$/.exec(number);
  if (match === null) {
    return { code: 'fraction-malformed', reason: 'is no fraction of whole numbers such as 1/8 or 1 1/8' };
  }
  const whole = Number(match[1] ?? 0);
  const numerator = Number(match[2]);
  const denominator = Number(match[3]);
  if (denominator === 0) return { code: 'fraction-malformed', reason: 'is a fraction over 0' };
  if (match[1] !== undefined && numerator >= denominator) {
    return {
      code: 'fraction-malformed',
      reason: `has ${numerator}/${denominator} after a whole number, which is 1 or more`,
    };
  }
  return { numerator: whole * denominator + numerator, denominator, fraction: true };
}
