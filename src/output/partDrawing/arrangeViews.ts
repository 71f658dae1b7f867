import type { Vec2 } from '../../solid/vector.ts';
import { type Box, boxAround } from '../drawing/index.ts';
import type { Projection } from './partDrawingInput.ts';
import type { Beside } from './seenView.ts';

/** Between what belongs to two views, mm. */
const GAP = 9;

/** Where views stand, mm: the main one at the origin, the others level or plumb with it; in first angle what is seen from the left
 *  stands to the right, in third to the left (ISO 5456-2:1996, 5.2 and 5.3). `boxes`: what each covers, its dimensions with it, in the order
 *  main view, then those beside it. */
export function arrangeViews(
  boxes: readonly Box[],
  beside: readonly Beside[],
  projection: Projection,
  gap = GAP,
): { readonly places: readonly Readonly<Vec2>[]; readonly box: Box } {
  const placed: Box[] = [boxes[0]!];
  const places: Vec2[] = [[0, 0]];
  beside.forEach((from, k) => {
    const box = boxes[k + 1]!;
    const axis = from === 'left' || from === 'right' ? 0 : 1;
    const seenFromHigh = from === 'right' || from === 'above';
    const high = seenFromHigh === (projection === 'third');
    const place: Vec2 = [0, 0];
    place[axis] = high
      ? boxes[0]!.max[axis] + gap - box.min[axis]
      : boxes[0]!.min[axis] - gap - box.max[axis];
    // Where it would meet a view already there, it moves on outwards.
    for (let tries = 0; tries < 500 && placed.some((other) => near(other, shifted(box, place), gap)); tries++)
      place[axis] += high ? 1 : -1;
    places.push(place);
    placed.push(shifted(box, place));
  });
  return {
    places,
    box: boxAround(placed.flatMap(({ min, max }) => [min, max]).map(([x, y]) => [x, y] as const)),
  };
}

export const shifted = ({ min, max }: Box, [x, y]: Readonly<Vec2>): Box => ({
  min: [min[0] + x, min[1] + y],
  max: [max[0] + x, max[1] + y],
});

const near = (a: Box, b: Box, gap: number): boolean =>
  ([0, 1] as const).every((k) => a.min[k] < b.max[k] + gap - 1e-6 && b.min[k] < a.max[k] + gap - 1e-6);
