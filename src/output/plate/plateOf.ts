import type { ManifoldToplevel } from '../../solid/kernel.ts';
import { moreThanBed } from './moreThanBed.ts';
import { outlineGap } from './outlineGap.ts';
import { Packing } from './packing.ts';
import type { Bed, Plate, PlateItem, PlateOptions, PlatePlacement, PlateRefusal } from './plateTypes.ts';
import { rectangles } from './rectangles.ts';
import { toMicrometre } from './toMicrometre.ts';
import { boxOf, turned } from './turned.ts';
import type { Way } from './way.ts';

/** The first way that finds a place for every part is taken: parts are turned, and tall ones leave the middle, only where
 *  room asks for it. */
const ways: readonly Way[] = [
  { order: 'tallest first', aim: 'middle of the bed', turning: false },
  { order: 'tallest first', aim: 'middle of the bed', turning: true },
  { order: 'largest first', aim: 'middle of the bed', turning: true },
  { order: 'largest first', aim: 'small box', turning: true },
];

/** What doubles lose, mm. */
const LOST = 1e-6;

/** Lays parts out on the bed of a printer, at least `spacing` from one another and from its edge, by their shadows: where
 *  parts are hollow-sided others may stand in the hollow. Turned about z only.
 *
 *  Tallest inside: the tall parts are given their places first and nearest to the middle, where a bed is flattest and most
 *  evenly warm; a tall part has the longest lever on the little it stands on, so a foot that lifts costs it most (common
 *  practice, no source). Where that leaves no room for all, large parts go first, and the plate says so.
 *
 *  The distances of the layout are measured between the shadows themselves before it is handed out. Greedy: a
 *  refusal says how many fitted, not that no layout holds more. The same input gives the same layout.
 *  Throws `RangeError` for a spacing or a bed that is not above 0, an item without outline, copy or turn.
 *  @example plateOf(kernel, [{ outline: [square10], height: 4, count: 2, turns: [0] }], { x: 50, y: 50, z: 50 }, { spacing: 5 })
 *    // => { ok: true, placements: [{ item: 0, copy: 1, turn: 0, x: 20, y: 20 }, ...], ... } */
export function plateOf(
  kernel: ManifoldToplevel,
  items: readonly PlateItem[],
  bed: Bed,
  { spacing }: PlateOptions,
): Plate | PlateRefusal {
  hold(items, bed, spacing);
  const asked = items.reduce((sum, { count }) => sum + count, 0);
  const alone = tooLarge(items, bed, spacing);
  if (alone) return { ok: false, ...alone, bed, asked, fit: 0 };

  let fit = 0;
  const accept = (found: readonly PlatePlacement[], tallestInside: boolean): Plate | null => {
    fit = Math.max(fit, found.length);
    return found.length < asked ? null : finished(items, found, bed, spacing, tallestInside);
  };
  const packing = new Packing(kernel, items, bed, spacing);
  try {
    // Where there is no hope only the closest way is tried, to say how many fit.
    for (const way of moreThanBed(items, bed, spacing) ? ways.slice(-1) : ways) {
      const plate = accept(packing.layOut(way), way.order === 'tallest first');
      if (plate) return plate;
    }
  } finally {
    packing.close();
  }
  const plate = accept(rectangles(items, bed, spacing), false);
  return plate ?? { ok: false, code: 'plate_full', item: null, needs: null, bed, asked, fit };
}

function hold(items: readonly PlateItem[], bed: Bed, spacing: number): void {
  if (!(spacing > 0 && spacing < Infinity))
    throw new RangeError(`plateOf requires a spacing above 0 (spacing ${spacing} mm)`);
  if (![bed.x, bed.y, bed.z].every((room) => room > 0 && room < Infinity))
    throw new RangeError(
      `plateOf requires a bed above 0 on every axis (bed ${bed.x} x ${bed.y} x ${bed.z} mm)`,
    );
  items.forEach(({ outline, count, turns }, k) => {
    if (outline.length === 0 || turns.length === 0 || !(Number.isInteger(count) && count >= 1))
      throw new RangeError(
        `plateOf requires an outline, a turn and 1 copy or more (item ${k}: outlines ${outline.length}, turns ${turns.length}, copies ${count})`,
      );
  });
}

/** The first item that does not fit even alone. */
function tooLarge(
  items: readonly PlateItem[],
  bed: Bed,
  spacing: number,
): Pick<PlateRefusal, 'code' | 'item' | 'needs'> | null {
  for (const [item, { outline, height, turns }] of items.entries()) {
    const [width, depth] = boxOf(turned(outline, turns[0]!)).max;
    const needs = { x: width + 2 * spacing, y: depth + 2 * spacing, z: height };
    if (height > bed.z + LOST) return { code: 'plate_too_tall', item, needs };
    const fits = turns.some((turn) => {
      const [x, y] = boxOf(turned(outline, turn)).max;
      return x + 2 * spacing <= bed.x + LOST && y + 2 * spacing <= bed.y + LOST;
    });
    if (!fits) return { code: 'plate_too_wide', item, needs };
  }
  return null;
}

/** The layout in the middle of the bed, in the order it was asked for, its distances measured. */
function finished(
  items: readonly PlateItem[],
  found: readonly PlatePlacement[],
  bed: Bed,
  spacing: number,
  tallestInside: boolean,
): Plate {
  const box = usedBox(items, found);
  const by = [
    toMicrometre((bed.x - box.from[0] - box.to[0]) / 2),
    toMicrometre((bed.y - box.from[1] - box.to[1]) / 2),
  ];
  const placements = found
    .map((each) => ({ ...each, x: toMicrometre(each.x + by[0]!), y: toMicrometre(each.y + by[1]!) }))
    .sort((a, b) => a.item - b.item || a.copy - b.copy);
  const used = usedBox(items, placements);
  const gap = measured(items, placements, spacing);
  const edge = Math.min(used.from[0], used.from[1], bed.x - used.to[0], bed.y - used.to[1]);
  // Whole micrometres on both sides of a gap.
  const least = spacing - 0.0011;
  if ((gap !== null && gap < least) || edge < least)
    throw new Error(
      `plateOf laid parts ${gap} mm apart and ${edge} mm from the edge, ${spacing} mm was asked`,
    );
  return { ok: true, placements, used, gap, tallestInside };
}

function usedBox(items: readonly PlateItem[], placements: readonly PlatePlacement[]): Plate['used'] {
  const corners = placements.map(({ item, turn, x, y }) => {
    const [width, depth] = boxOf(turned(items[item]!.outline, turn)).max;
    return [x, y, x + width, y + depth] as const;
  });
  const least = (k: 0 | 1) => Math.min(...corners.map((each) => each[k]));
  const most = (k: 2 | 3) => Math.max(...corners.map((each) => each[k]));
  return { from: [least(0), least(1)], to: [most(2), most(3)] };
}

/** Pairs whose boxes are further apart than this many spacings are far apart. */
const NEAR = 2;

/** Least distance between any two parts, mm; null where none are near. */
function measured(
  items: readonly PlateItem[],
  placements: readonly PlatePlacement[],
  spacing: number,
): number | null {
  const shadows = placements.map(({ item, turn, x, y }) => {
    const contours = turned(items[item]!.outline, turn).map((contour) =>
      contour.map(([u, v]): [number, number] => [u + x, v + y]),
    );
    return { contours, ...boxOf(contours) };
  });
  let least = Infinity;
  shadows.forEach((a, k) => {
    for (const b of shadows.slice(k + 1)) {
      const apart = Math.max(
        b.min[0] - a.max[0],
        a.min[0] - b.max[0],
        b.min[1] - a.max[1],
        a.min[1] - b.max[1],
      );
      if (apart < Math.min(least, NEAR * spacing))
        least = Math.min(least, outlineGap(a.contours, b.contours));
    }
  });
  return least < NEAR * spacing ? least : null;
}
