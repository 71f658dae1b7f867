import { dimensionOf } from '../measure/index.ts';
import type { Dimension } from '../measure/types.ts';
import { type Bench, type Reading, valueTyped } from './valueTyped.ts';

export { type Bench, type Reading, valueTyped } from './valueTyped.ts';

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
