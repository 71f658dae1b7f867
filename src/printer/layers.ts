import { HAIR } from '../solid/layers.ts';
import type { PrinterProfile } from './types.ts';

/** How many layers lie below a face at `height` mm above the bed: those whose middle is inside the part. */
export function layersBelow(height: number, { layer, firstLayer }: PrinterProfile): number {
  if (height <= firstLayer / 2 + HAIR) return 0;
  // Middle of layer n is firstLayer + (n - 3/2) layer for n >= 2.
  return Math.max(1, Math.ceil((height - HAIR - firstLayer) / layer + 0.5));
}

/** Top of layer `count` as drawn, mm above the bed; 0 layers are the bed. */
export function topOfLayer(count: number, { layer, firstLayer }: PrinterProfile): number {
  return count === 0 ? 0 : firstLayer + (count - 1) * layer;
}

/** Height above the bed at which a face drawn at `height` mm comes out, mm: the nearest boundary of the stack of layers,
 *  times the scale along z. A layer is printed when the middle of its height is inside the part. Never below 0.
 *  @example printedHeight(1.07, defaultPrinter) // => 1.0 */
export function printedHeight(height: number, profile: PrinterProfile): number {
  return topOfLayer(layersBelow(height, profile), profile) * profile.scale.z.value;
}
