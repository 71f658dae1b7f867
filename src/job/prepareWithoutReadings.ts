import type { Family } from '../family/family.ts';
import { type Prepared, prepare } from './prepare.ts';
import type { Job } from './schema.ts';

/** A job understood before its readings are taken: callipers, choices, printer, all that does not hang on a reading. Throws
 *  `Refused` as `prepare` does. */
export const prepareWithoutReadings = (job: Job, family: Family): Prepared =>
  prepare(
    { ...job, readings: {}, sizes: {}, fits: {} },
    {
      ...family,
      ...{ readings: {}, sizes: {}, normalSizes: () => ({}), rules: () => [], interfaces: () => [] },
    },
  );
