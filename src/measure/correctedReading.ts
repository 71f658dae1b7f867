import { landCorrection } from './landCorrection.ts';
import type { ReadingSpec } from './readingSpec.ts';
import type { Callipers } from './types.ts';

/** One reading freed of what is known to be wrong with it. */
export interface CorrectedReading {
  /** The reading without the zero offset, mm: what the jaws really stood apart. */
  readonly jaws: number;
  /** The size of the thing, mm. */
  readonly value: number;
  /** Change of `value` per change of the reading: m / D under the land correction, otherwise 1. */
  readonly sensitivity: number;
  /** Change of `value` per change of the land width: w / D under the land correction, otherwise 0. */
  readonly landSensitivity: number;
}

/** Takes off the zero offset and, for inside jaws in a round hole, puts on what their flat lands lost.
 *  Entered values come back as they are. `value` in the unit of the quantity, callipers in mm.
 *  @example correctedReading({ id: 'bore', name: 'Bore', jaw: 'inside', round: true, from: 1, to: 9 },
 *    2.975, { ...defaultCallipers, zero: -0.01, landWidth: 0.3 }).value // => 3.0000... */
export function correctedReading(spec: ReadingSpec, value: number, callipers: Callipers): CorrectedReading {
  if (spec.jaw === 'entered') return { jaws: value, value, sensitivity: 1, landSensitivity: 0 };
  const jaws = value - callipers.zero;
  // Jaws closer than nothing have no chord; the caller refuses them by this very value.
  if (spec.jaw !== 'inside' || spec.round !== true || !(jaws > 0)) {
    return { jaws, value: jaws, sensitivity: 1, landSensitivity: 0 };
  }
  const diameter = landCorrection(jaws, callipers.landWidth);
  return {
    jaws,
    value: diameter,
    sensitivity: jaws / diameter,
    landSensitivity: callipers.landWidth / diameter,
  };
}
