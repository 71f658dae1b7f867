import { csvReadings } from './csvReadings.ts';
import { jsonReadings } from './jsonReadings.ts';
import type { RawReadings, ReadThings } from './rawReadings.ts';

/** What a coupon has. */
const FEATURES: ReadThings = { what: 'feature', example: 'bore.3' };

/** Readings from the text of a file. Throws `Refused` where it is of no form that is understood.
 *  @example parseReadings('feature,reading\nbore.3,4.79', 'csv').readings[0]?.texts // => ['4.79'] */
export function parseReadings(text: string, kind: 'csv' | 'json', things = FEATURES): RawReadings {
  return kind === 'json' ? jsonReadings(text, things) : csvReadings(text, things);
}
