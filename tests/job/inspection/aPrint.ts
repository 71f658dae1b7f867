import type { Prepared } from '../../../src/job/prepare.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';

type Texts = Readonly<Record<string, readonly (string | number)[]>>;

/** The record of a print of the job as it is drawn, with these readings of it, by interface. */
export function aPrint(prepared: Prepared, readings: Texts, more: Partial<TrialRecord> = {}): TrialRecord {
  const { date, made, ...rest } = openTrial(prepared, '2026-12-03', 'ab'.repeat(32));
  const plain = Object.fromEntries(Object.entries(readings).map(([id, texts]) => [id, [...texts]]));
  return { date, made, ...rest, inspected: { readings: plain }, ...more };
}

/** Three readings about a size, mm, as callipers show them to a hundredth. */
export const about = (size: number): string[] => [-0.01, 0, 0.01].map((by) => (size + by).toFixed(2));
