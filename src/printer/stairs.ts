import { layersBelow, topOfLayer } from './layers.ts';
import type { PrinterProfile } from './types.ts';

/** A round that lies level: its diameter and the height of its axis above the bed, mm. */
export interface LyingRound {
  readonly diameter: number;
  readonly axis: number;
}

/** What a round that lies level loses of its width, mm: layers are cut at the middle of their height, and unless one of
 *  those lies at the axis the widest layer is a chord, not the diameter. All of it when no layer cuts it.
 *  @example a bore of 2 mm with its axis where two layers of 0.2 mm meet // => 0.01003 */
export function stairs({ diameter, axis }: LyingRound, profile: PrinterProfile): number {
  const below = layersBelow(axis, profile);
  const middle = (count: number): number => (topOfLayer(count - 1, profile) + topOfLayer(count, profile)) / 2;
  const off = Math.min(middle(below + 1) - axis, below > 0 ? axis - middle(below) : Infinity);
  return diameter - Math.sqrt(Math.max(0, diameter ** 2 - 4 * off ** 2));
}
