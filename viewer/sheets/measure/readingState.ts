import type { Remark } from '../../../src/measure/types.ts';

/** How a reading stands: not read, not read and need not be, fewer numbers than asked for, read, read but doubtful, or
 *  with a text that cannot be used. */
export type ReadingState = 'missing' | 'spared' | 'few' | 'read' | 'doubtful' | 'refused';

/** The state of a reading. A likely nominal size is news, no doubt. */
export function readingState(of: {
  readonly taken: number;
  readonly times: number;
  readonly optional: boolean;
  readonly refused: boolean;
  readonly remarks: readonly Remark[];
}): ReadingState {
  if (of.refused) return 'refused';
  if (of.taken === 0) return of.optional ? 'spared' : 'missing';
  if (of.remarks.some(({ kind }) => kind !== 'nominal')) return 'doubtful';
  return of.taken < of.times ? 'few' : 'read';
}

/** The state in words, for the table. */
export const stateWords: Readonly<Record<ReadingState, string>> = {
  missing: 'not read',
  spared: 'not read, need not be',
  few: 'fewer than asked',
  read: 'read',
  doubtful: 'doubtful',
  refused: 'cannot be used',
};
