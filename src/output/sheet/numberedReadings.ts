import type { Callout } from '../../family/callout.ts';
import { askedReadings, type Family } from '../../family/family.ts';
import type { ReadingSpec } from '../../family/reading.ts';
import type { Values } from '../../family/values.ts';
import { lengthOf, subtract } from '../../solid/vector.ts';

/** A length to be dimensioned: its number, the same on drawing and table, and where the jaws touch. */
export interface NumberedLength {
  readonly number: number;
  readonly key: string;
  /** mm, frame of the part; null when nothing can be drawn, as for a mass. */
  readonly callout: Callout | null;
}

/** A reading as the sheet shows it. */
export interface NumberedReading extends NumberedLength {
  readonly spec: ReadingSpec;
}

/** Readings these choices ask for, numbered from 1 in the order of measuring. */
export function numberedReadings(of: Family, values: Values): NumberedReading[] {
  const callouts = of.callouts(values);
  return askedReadings(of, values.choices).map(([key, spec], k) => {
    const callout = callouts[key];
    const drawable =
      callout?.flat().every(Number.isFinite) && lengthOf(subtract(callout[1], callout[0])) > 1e-6;
    return { number: k + 1, key, spec, callout: drawable ? callout! : null };
  });
}
