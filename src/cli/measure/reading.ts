import type { ReadingSpec } from '../../family/reading.ts';
import { dimensionOf, refusals } from '../../measure/index.ts';
import type { Callipers, Dimension } from '../../measure/types.ts';
import { parseLength } from '../../units/index.ts';

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

/** A typed line as a length in mm, or the reason it is none, as the end of a sentence.
 *  The range is the family's; a reading outside it would be refused later on, so it is refused at once. */
export function lengthTyped(
  { id, spec }: Reading,
  text: string,
  { unit, callipers }: Bench,
): { readonly mm: number } | { readonly refused: string } {
  const parsed = parseLength(text, unit);
  if (!parsed.ok) return { refused: `${parsed.reason}; allowed: ${parsed.allowed}` };
  const [refusal] = refusals({ ...spec, id }, [parsed.mm], callipers);
  if (refusal !== undefined) return { refused: `${refusal.reason}; allowed: ${refusal.allowed}` };
  return { mm: parsed.mm };
}

/** What the readings come to. Undefined without readings, or with one that is no length or out of range: the file may
 *  have been edited by hand, and `fettle make` names such a reading. */
export function dimensionRead(reading: Reading, bench: Bench): Dimension | undefined {
  const lengths = lengthsRead(reading, bench);
  if (lengths.length === 0 || lengths.length < reading.texts.length) return undefined;
  return dimensionOf({ ...reading.spec, id: reading.id }, lengths, bench.callipers);
}

/** The readings that can be used, mm, as the callipers showed them. */
export const lengthsRead = (reading: Reading, bench: Bench): readonly number[] =>
  reading.texts.flatMap((text) => {
    const typed = lengthTyped(reading, text, bench);
    return 'mm' in typed ? [typed.mm] : [];
  });
