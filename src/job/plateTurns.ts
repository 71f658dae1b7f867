import type { Turn } from '../output/plate/index.ts';
import type { PrinterProfile } from '../printer/types.ts';

/** What a size may change by when a part is turned, mm: a step of digital callipers. */
const NOTICED = 0.01;

/** Turns about z that leave the sizes of a part as they were drawn. Every part is drawn for the axes it is laid along; half a
 *  turn keeps them, a quarter swaps them, so it is only given where the printer prints both alike. `extents` of the part on
 *  the bed, mm. */
export function plateTurns(
  { scale, skew }: Pick<PrinterProfile, 'scale' | 'skew'>,
  extents: readonly [number, number, number],
): readonly Turn[] {
  const longest = Math.max(extents[0], extents[1]);
  // Turned a quarter, a lean of the axes goes the other way: twice its tangent.
  const change = longest * (Math.abs(scale.x.value - scale.y.value) + 2 * Math.abs(skew.value));
  return change <= NOTICED ? [0, 90, 180, 270] : [0, 180];
}
