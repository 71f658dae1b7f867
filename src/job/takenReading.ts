import type { ReadingSpec } from '../family/reading.ts';
import { dimensionOf, refusals } from '../measure/index.ts';
import type { Callipers, Dimension } from '../measure/types.ts';
import { readingTyped } from './readingTyped.ts';

/** One reading on the list, with what has been typed for it so far. */
export interface Reading {
  readonly id: string;
  readonly spec: ReadingSpec;
  readonly texts: readonly string[];
}

/** How the job's owner measures. */
export interface Bench {
  readonly unit: 'mm' | 'in';
  readonly callipers: Callipers;
}

/** A typed line in the unit of the reading (mm, g), or the reason it is none, as the end of a sentence.
 *  The range is the family's; a reading outside it would be refused later on, so it is refused at once. */
export function valueTyped(
  { id, spec }: Reading,
  text: string,
  { unit, callipers }: Bench,
): { readonly value: number } | { readonly refused: string } {
  const parsed = readingTyped(spec, text, unit);
  if (!parsed.ok) return { refused: `${parsed.reason}; allowed: ${parsed.allowed}` };
  const [refusal] = refusals({ ...spec, id }, [parsed.value], callipers);
  if (refusal !== undefined) return { refused: `${refusal.reason}; allowed: ${refusal.allowed}` };
  return { value: parsed.value };
}

/** What the readings come to. Undefined without readings, or with one that is no length or out of range: the file may
 *  have been edited by hand, and `fettle make` names such a reading. */
export function dimensionRead(reading: Reading, bench: Bench): Dimension | undefined {
  const values = valuesRead(reading, bench);
  if (values.length === 0 || values.length < reading.texts.length) return undefined;
  return dimensionOf({ ...reading.spec, id: reading.id }, values, bench.callipers);
}

/** The readings that can be used, as the callipers or the scale showed them. */
export const valuesRead = (reading: Reading, bench: Bench): readonly number[] =>
  reading.texts.flatMap((text) => {
    const typed = valueTyped(reading, text, bench);
    return 'value' in typed ? [typed.value] : [];
  });
