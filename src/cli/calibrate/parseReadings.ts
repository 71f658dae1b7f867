import { csvReadings } from './csvReadings.ts';
import { jsonReadings } from './jsonReadings.ts';
import type { RawReadings } from './rawReadings.ts';

/** Readings from the text of a file. Throws `Refused` where it is of no form that is understood.
 *  @example parseReadings('feature,reading\nbore.3,4.79', 'csv').readings[0]?.texts // => ['4.79'] */
export function parseReadings(text: string, kind: 'csv' | 'json'): RawReadings {
  return kind === 'json' ? jsonReadings(text) : csvReadings(text);
}
