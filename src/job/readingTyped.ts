import type { ReadingSpec } from '../family/reading.ts';
import { type ParsedQuantity, parseQuantity, type RefusedText } from '../units/index.ts';

/** A typed reading in the base unit of its quantity: mm, g. `unit` is what a length without one is meant in.
 *  @example readingTyped(weighed('weight', ...), '7.4 kg', 'mm') // => { ok: true, value: 7400, ... } */
export const readingTyped = (
  { quantity = 'length' }: Pick<ReadingSpec, 'quantity'>,
  text: string,
  unit: 'mm' | 'in',
): ParsedQuantity | RefusedText =>
  parseQuantity(text, quantity, quantity === 'length' ? { defaultUnit: unit } : {});
