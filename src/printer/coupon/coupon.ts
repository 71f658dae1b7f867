import { difference, type Shape, union } from '../../solid/shape.ts';
import type { PrinterProfile } from '../types.ts';
import { CouponRefusal } from './couponRefusal.ts';
import { numberBlocks } from './digits.ts';
import type { Draft } from './draft.ts';
import type { Coupon, CouponFeature } from './feature.ts';
import { ground } from './ground.ts';
import { type Heights, heightsFor } from './heights.ts';
import { bores, slots } from './openings.ts';
import { plate } from './plate.ts';
import { posts, ribs } from './standing.ts';
import { towerGroup } from './tower.ts';

/** What the digits and the smallest bores bear, mm. */
const LIMITS = { lineWidth: 1, layer: 0.5, firstLayer: 0.6 } as const;
/** How deep raised digits are rooted, and sunk ones reach into the air, mm. */
const ROOTED = 0.3;

/** The calibration print for one printer: a small try square, 76 mm a side, that ordinary callipers reach all over. Lies
 *  on the bed with its lowest corner at the origin, arms along x and y; mm.
 *
 *  Bores, slots, ribs, posts, long spans and diagonals follow what ISO/ASTM 52902 wants such pieces to show (linear
 *  accuracy, bores, slots, ribs); the drawing is our own. Heights are whole layers, ribs whole lines. Drawn at nominal
 *  sizes: it shows what the printer does, so nothing is allowed for. Its first layer is drawn in by 0.5 mm wherever
 *  it is not itself the thing to be read.
 *
 *  Only `layer`, `firstLayer`, `lineWidth` and `bed` count, nothing that a calibration changes: the features of a print
 *  stay the same however often its readings are fitted.
 *  Throws `CouponRefusal` when it does not fit the bed, or lines or layers are too coarse for it.
 *  @example coupon(defaultPrinter).features.length // => 31 */
export function coupon(profile: PrinterProfile): Coupon {
  const heights = heightsFor(profile);
  mustSuit(profile, heights);
  const slotted = slots(heights);
  const bored = bores(heights, slotted.drafts.length + 1);
  const tower = towerGroup(heights);
  const [ribbed, posted, plated] = [ribs(heights, profile.lineWidth), posts(heights), plate(heights)];
  const drafts = [
    ...slotted.drafts,
    ...bored.drafts,
    tower.levelBore,
    ...ribbed.drafts,
    ...posted.drafts,
    ...plated.drafts,
    ...tower.steps,
  ];
  const groups = [plated, slotted, bored, ribbed, posted, tower.body];
  const numbers = (sunk: boolean): Shape[] =>
    drafts.flatMap((draft, k) =>
      (draft.sunk ?? false) === sunk ? digits(draft, k + 1, heights, profile) : [],
    );
  let shape: Shape | undefined;
  const drawn = (): Shape => {
    const solid = union(...groups.flatMap(({ adds }) => adds), ...numbers(false));
    return difference(solid, ...groups.flatMap(({ cuts }) => cuts), ...numbers(true));
  };
  return {
    // Drawn when somebody looks: a calibration wants the features alone, and at once.
    get shape() {
      shape ??= drawn();
      return shape;
    },
    features: drafts.map(
      ({ place: _, sunk: __, ...feature }, k): CouponFeature => ({ ...feature, number: k + 1 }),
    ),
  };
}

function digits(
  { place, sunk }: Draft,
  number: number,
  heights: Heights,
  { lineWidth }: PrinterProfile,
): Shape[] {
  const rise = heights.digits - heights.plate;
  const depth = sunk
    ? { inside: heights.tower - heights.sunk, outside: ROOTED }
    : { inside: ROOTED, outside: rise };
  return numberBlocks(number, place, { ...depth, lineWidth });
}

function mustSuit(profile: PrinterProfile, { tower }: Heights): void {
  for (const field of ['lineWidth', 'layer', 'firstLayer'] as const)
    if (profile[field] > LIMITS[field])
      throw new CouponRefusal(
        field,
        profile[field],
        `at most ${LIMITS[field]} mm, for the coupon's small bores and numbers`,
      );
  for (const axis of ['x', 'y'] as const)
    if (profile.bed[axis] < ground.reach)
      throw new CouponRefusal(
        `bed.${axis}`,
        profile.bed[axis],
        `at least ${ground.reach} mm, the length of the coupon`,
      );
  if (profile.bed.z < tower)
    throw new CouponRefusal(
      'bed.z',
      profile.bed.z,
      `at least ${tower.toFixed(1)} mm, the height of the coupon`,
    );
}
