import { MaxRectsBin, PACKING_LOGIC, Rectangle } from 'maxrects-packer/dist/maxrects-packer.mjs';
import type { Bed, PlateItem, PlatePlacement } from './plateTypes.ts';
import { boxOf, turned } from './turned.ts';

/** What doubles lose in sums of lengths, mm. */
const LOST = 1e-6;

/** Lays parts out by the boxes around them (maximal rectangles; Jylänki, A Thousand Ways to Pack the Bin, 2010); parts
 *  without a place are left out. Falls behind outlines where parts nest, and ahead where boxes just fill the bed. */
export function rectangles(
  items: readonly PlateItem[],
  bed: Bed,
  spacing: number,
): readonly PlatePlacement[] {
  const sizes = items.map(({ outline, turns }) => boxOf(turned(outline, turns[0]!)).max);
  const copies = items.flatMap(({ count }, item) =>
    Array.from({ length: count }, (_, k) => ({ item, copy: k + 1 })),
  );
  const orders = [
    ([x, y]: readonly [number, number]) => x * y,
    ([x, y]: readonly [number, number]) => Math.max(x, y),
  ];
  let best: readonly PlatePlacement[] = [];
  for (const measure of orders) {
    // Stable, so equals keep the order they were asked for in.
    const inOrder = copies.toSorted((a, b) => measure(sizes[b.item]!) - measure(sizes[a.item]!));
    for (const logic of [PACKING_LOGIC.MAX_EDGE, PACKING_LOGIC.MAX_AREA]) {
      const placed = packed(items, sizes, inOrder, bed, spacing, logic);
      if (placed.length > best.length) best = placed;
    }
  }
  return best;
}

/** Every box with the spacing behind and to the right of it, on a bed without its front and left margin. */
function packed(
  items: readonly PlateItem[],
  sizes: readonly (readonly [number, number])[],
  copies: readonly { readonly item: number; readonly copy: number }[],
  bed: Bed,
  spacing: number,
  logic: 0 | 1,
): readonly PlatePlacement[] {
  const bin = new MaxRectsBin(bed.x - spacing + LOST, bed.y - spacing + LOST, 0, {
    ...{ smart: false, pot: false, square: false, logic },
  });
  return copies.flatMap(({ item, copy }): readonly PlatePlacement[] => {
    const { turns } = items[item]!;
    const [width, depth] = sizes[item]!;
    const quarter = turns.find((turn) => (turn - turns[0]!) % 180 !== 0);
    const box = new Rectangle(width + spacing, depth + spacing, 0, 0, false, quarter !== undefined);
    const place = bin.add(box);
    if (place === undefined) return [];
    return [
      { item, copy, turn: place.rot ? quarter! : turns[0]!, x: spacing + place.x, y: spacing + place.y },
    ];
  });
}
