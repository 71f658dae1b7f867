import { topOfLayer } from '../layers.ts';
import type { PrinterProfile } from '../types.ts';

/** How far the first layer is drawn in where it is not meant to be read, mm a side: more than a first layer spreads
 *  (0 to 0.3 mm, common practice, no source), so that jaws never touch it. */
export const FOOT = 0.5;
/** Depth of straight wall that inside jaws want, mm. Common practice, no source. */
const GRIP_INSIDE = 2.5;
/** How tall posts and ribs stand: 3 mm and more for outside jaws, and room for their tips above the plate, mm. */
const POST = 5;
/** Digits stand proud by about this, mm: seen and felt, and out of the way of jaws. */
const RISE = 0.4;
/** Wished height of the level bore, mm. */
const LEVEL_BORE = 5;
/** From the plate to the floor of the level bore, room for its number, and from its roof to the top, mm. */
const BELOW_BORE = 5.2;
const ABOVE_BORE = 1.4;

/** Every height of the coupon, mm above the bed, on the boundary of a layer. */
export interface Heights {
  readonly firstLayer: number;
  /** From here up the foot is no longer drawn in. */
  readonly footEnd: number;
  /** Top of the plate. */
  readonly plate: number;
  readonly digits: number;
  /** Floor of the digits sunk into the tower. */
  readonly sunk: number;
  readonly post: number;
  readonly boreFloor: number;
  readonly boreRoof: number;
  readonly tower: number;
}

/** Heights in whole layers of this printer. */
export function heightsFor(profile: Pick<PrinterProfile, 'layer' | 'firstLayer'>): Heights {
  const { layer, firstLayer } = profile;
  const top = (count: number): number => topOfLayer(count, profile as PrinterProfile);
  // Sums of layers carry rounding: a height that is met but for 1e-9 mm is met.
  const atLeast = (height: number): number =>
    1 + Math.max(0, Math.ceil((height - firstLayer) / layer - 1e-6));
  const layers = (height: number): number => Math.max(1, Math.ceil(height / layer - 1e-6));
  const about = (height: number): number => Math.max(1, Math.round(height / layer));
  const footEnd = firstLayer + FOOT;
  const plate = atLeast(footEnd + GRIP_INSIDE);
  const floor = plate + layers(BELOW_BORE);
  const roof = floor + about(LEVEL_BORE);
  const tower = roof + layers(ABOVE_BORE);
  return {
    firstLayer,
    footEnd,
    plate: top(plate),
    digits: top(plate + about(RISE)),
    sunk: top(tower - about(RISE)),
    post: top(plate + layers(POST)),
    boreFloor: top(floor),
    boreRoof: top(roof),
    tower: top(tower),
  };
}
