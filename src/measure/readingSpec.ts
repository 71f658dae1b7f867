import type { Quantity } from '../units/index.ts';
import type { Dimension, Jaw } from './types.ts';

/** What is to be read for one dimension. Lengths in mm, angles in degrees, temperatures in degrees Celsius. */
export interface ReadingSpec {
  readonly id: string;
  /** The name on the sheet, capital letter first: "Socket width". */
  readonly name: string;
  readonly jaw: Jaw;
  /** Absent: length. Callipers read lengths only; the others are entered. */
  readonly quantity?: Quantity;
  /** Inside jaws in a round hole: their flat lands touch with their corners and read small. */
  readonly round?: boolean;
  /** Smallest and largest plausible value, both included. */
  readonly from: number;
  readonly to: number;
  /** Sizes the maker of the machine is likely to have meant, mm. */
  readonly nominals?: readonly number[];
  /** Standard uncertainty of an entered value, 0 or above; absent: half its usual last digit as a
   *  rectangle. Callipers make their own, so it is for `entered` only. */
  readonly u?: number;
}

const UNITS: Readonly<Record<Quantity, Dimension['unit']>> = {
  length: 'mm',
  angle: 'deg',
  temperature: 'degC',
  mass: 'g',
  count: '1',
};

/** Unit of the dimension that the readings become. */
export function unitOf(spec: Pick<ReadingSpec, 'quantity'>): Dimension['unit'] {
  return UNITS[spec.quantity ?? 'length'];
}

/** A value with its unit as it stands in a sentence: at most `decimals` decimals, no trailing zeros.
 *  @example withUnit(1.5875, 'mm') // => '1.588 mm' */
export function withUnit(value: number, unit: Dimension['unit'], decimals = 3): string {
  const text = Number.isFinite(value) ? String(Number(value.toFixed(decimals))) : String(value);
  return unit === '1' ? text : `${text} ${unit}`;
}
