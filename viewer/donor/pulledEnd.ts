import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { draftMap } from './layAlong.ts';

/** The end of a stretch that a hand pulls. */
export interface PulledEnd {
  /** Where it is, level on the axis. */
  readonly level: number;
  /** How far it moves up the axis for each mm that the stretch becomes longer. */
  readonly gain: number;
}

/** The end that moves farther when a stretch becomes longer, the high one where both move alike. `stays` is the level that
 *  does not move; everything below by default. */
export function pulledEnd(sheet: Pick<RefitSheet, 'spans'>, index: number, stays?: number): PulledEnd {
  const { from, to } = sheet.spans[index]!;
  const map = draftMap(sheet, { span: index, by: 1 }, stays)!;
  const [low, high] = [map.shift(from), map.shift(to)];
  return Math.abs(low) > Math.abs(high) + 1e-9 ? { level: from, gain: low } : { level: to, gain: high };
}

/** The level that a change of a stretch leaves where it is: the mirror plane of a part that stays alike on both sides. */
export const staysAt = (
  { mirror, spans }: Pick<RefitSheet, 'mirror' | 'spans'>,
  index: number,
): number | undefined => (mirror !== null && spans[index]?.partner !== null ? mirror : undefined);
