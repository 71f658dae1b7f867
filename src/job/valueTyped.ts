import type { ReadingSpec } from '../family/reading.ts';
import { refusals } from '../measure/refusals.ts';
import type { Callipers } from '../measure/types.ts';
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

/** How many of the other readings are heard about one that cannot be used: a damaged list may have a hundred thousand. */
const HEARD = 20;

/** A typed line in the unit of the reading (mm, g), or the reason it is none, as the end of a sentence.
 *  The range is the family's; a reading outside it would be refused later on, so it is refused at once. */
export function valueTyped(
  { id, spec, texts }: Reading,
  text: string,
  { unit, callipers }: Bench,
): { readonly value: number } | { readonly refused: string } {
  const parsed = readingTyped(spec, text, unit);
  if (!parsed.ok) return { refused: `${parsed.reason}; allowed: ${parsed.allowed}` };
  const refusal = (beside: readonly number[]) =>
    refusals({ ...spec, id }, [parsed.value], callipers, beside)[0];
  if (refusal([]) === undefined) return { value: parsed.value };
  // What explains a number that cannot be used has to agree with those that can.
  const others = texts.slice(0, HEARD).flatMap((other) => {
    const one = readingTyped(spec, other, unit);
    return one.ok ? [one.value] : [];
  });
  const { reason, allowed } = refusal(others)!;
  return { refused: `${reason}; allowed: ${allowed}` };
}
