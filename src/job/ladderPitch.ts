import { numberWidth } from '../printer/coupon/digits.ts';
import { type Box, movedBox, unionOfBoxes } from './ladderBox.ts';

/** From rung to rung at most, and least gap between neighbours, mm. */
export const WIDEST_PITCH = 40;
const GAP = 1.5;

/** Least pitch, mm, at which boxes about one rung keep off those about the next, and the numbers of `count` rungs too.
 *  `u` is the axis of the bed along which they stand. */
export function closestPitch(count: number, u: 0 | 1, boxes: readonly Box[]): number {
  const { min, max } = unionOfBoxes(boxes);
  return Math.ceil(Math.max(max[u] - min[u], numberWidth(count)) + GAP);
}

/** Pitches that are tried from the closest on, mm. */
export const pitches = (closest: number): readonly number[] =>
  Array.from({ length: Math.max(0, WIDEST_PITCH - closest + 1) }, (_, k) => closest + k);

/** Boxes about the three neighbours on either side. */
export const copies = (boxes: readonly Box[], u: 0 | 1, pitch: number): Box[] =>
  [-3, -2, -1, 1, 2, 3].flatMap((k) =>
    boxes.map((each) => movedBox(each, u === 0 ? [k * pitch, 0, 0] : [0, k * pitch, 0])),
  );
