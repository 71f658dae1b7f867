import { lawOf, varianceOf } from '../../fit/law.ts';
import type { CauseRow } from '../../fit/trialBelief.ts';
import type { CauseEffect } from '../clearanceCauses.ts';

/** Causes as a row of a belief: mm per standard uncertainty. A Student error counts by its variance. */
export function causeRow(effects: readonly CauseEffect[]): CauseRow {
  const row: Record<string, number> = {};
  for (const { cause, by } of effects)
    row[cause.id] = (row[cause.id] ?? 0) + Math.sign(by) * Math.sqrt(varianceOf(lawOf(cause, by)));
  return row;
}
