// Distances by an independent library and arithmetic (apart.ts); what others achieve by the boxes around parts, from the library
// maxrects-packer called here directly.

import fc from 'fast-check';
import { MaxRectsBin, Rectangle } from 'maxrects-packer/dist/maxrects-packer.mjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Plate, type PlateItem, plateOf, type Turn } from '../../../src/output/plate/index.ts';
import { moreThanBed } from '../../../src/output/plate/moreThanBed.ts';
import { loadKernel, type ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { Contour } from '../../../src/solid/vector.ts';
import { watchMemory } from '../../job/wasmMemory.ts';
import { apart, areaOf, extent, standing } from './apart.ts';

let kernel: ManifoldToplevel;
const memory = watchMemory();
beforeAll(async () => {
  kernel = await loadKernel();
});

const everyTurn: readonly Turn[] = [0, 90, 180, 270];
const bed = { x: 220, y: 220, z: 240 };
const small = { x: 130, y: 170, z: 100 };
/** Whole micrometres on both sides of a gap. */
const ROUNDED = 0.0011;

const rectangle = (width: number, depth: number): Contour => [
  [0, 0],
  [width, 0],
  [width, depth],
  [0, depth],
];
const bracket = (width: number, depth: number, thick: number): Contour => [
  [0, 0],
  [width, 0],
  [width, thick],
  [thick, thick],
  [thick, depth],
  [0, depth],
];
const disc = (radius: number, sides = 48): Contour =>
  Array.from({ length: sides }, (_, k) => {
    const angle = (2 * Math.PI * k) / sides;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
const part = (outline: Contour, count = 1, height = 10, turns = everyTurn): PlateItem => ({
  ...{ outline: [outline], count, height, turns },
});

const lay = (items: readonly PlateItem[], spacing = 5, on = bed): Plate => {
  const plate = plateOf(kernel, items, on, { spacing });
  if (!plate.ok) throw new RangeError(`lay requires items that fit (${plate.fit} of ${plate.asked} did)`);
  return plate;
};

/** What is wrong with a layout; empty when nothing is. */
function faults(items: readonly PlateItem[], { placements }: Plate, spacing: number, on = bed): string[] {
  const wrong: string[] = [];
  const parts = placements.map((each) => standing(items, each));
  parts.forEach((outline, k) => {
    const { left, right, front, back } = extent(outline);
    const edge = Math.min(left, front, on.x - right, on.y - back);
    if (edge < spacing - ROUNDED) wrong.push(`${k} is ${edge} mm from the edge`);
    if (!items[placements[k]!.item]!.turns.includes(placements[k]!.turn)) wrong.push(`${k} is turned`);
    for (let other = 0; other < k; other++) {
      const box = extent(parts[other]!);
      // No two parts are nearer than the boxes around them.
      const least = Math.max(box.left - right, left - box.right, box.front - back, front - box.back);
      if (least > spacing) continue;
      const between = apart(outline, parts[other]!);
      if (between < spacing - ROUNDED) wrong.push(`${other} and ${k} are ${between} mm apart`);
    }
  });
  const names = placements.map(({ item, copy }) => `${item}.${copy}`);
  const asked = items.flatMap(({ count }, item) =>
    Array.from({ length: count }, (_, k) => `${item}.${k + 1}`),
  );
  if (names.join(' ') !== asked.join(' ')) wrong.push(`placed ${names.join(' ')}`);
  return wrong;
}

const anyOutline = fc.oneof(
  fc
    .tuple(fc.double({ min: 3, max: 60, noNaN: true }), fc.double({ min: 3, max: 60, noNaN: true }))
    .map(([w, d]) => rectangle(w, d)),
  fc
    .tuple(
      fc.double({ min: 20, max: 70, noNaN: true }),
      fc.double({ min: 20, max: 70, noNaN: true }),
      fc.double({ min: 3, max: 12, noNaN: true }),
    )
    .map(([w, d, t]) => bracket(w, d, t)),
  fc
    .tuple(fc.double({ min: 2, max: 25, noNaN: true }), fc.integer({ min: 3, max: 90 }))
    .map(([r, n]) => disc(r, n)),
);
const anyItem = fc
  .tuple(
    anyOutline,
    fc.integer({ min: 1, max: 4 }),
    fc.double({ min: 1, max: 60, noNaN: true }),
    fc.constantFrom<readonly Turn[]>([0], [0, 180], everyTurn),
  )
  .map(([outline, count, height, turns]) => part(outline, count, height, turns));

describe('any set of parts', () => {
  it('is laid out with the spacing kept, on the bed, each part once, or refused with how many fit', () => {
    let [laid, refused, closest] = [0, 0, Infinity];
    fc.assert(
      fc.property(
        fc.array(anyItem, { minLength: 1, maxLength: 9 }),
        fc.double({ min: 1, max: 15, noNaN: true }),
        (items, spacing) => {
          const plate = plateOf(kernel, items, small, { spacing });
          const asked = items.reduce((sum, { count }) => sum + count, 0);
          if (!plate.ok) {
            refused++;
            expect(plate.code).toBe('plate_full');
            expect(plate.asked).toBe(asked);
            expect(plate.fit).toBeGreaterThan(0);
            expect(plate.fit).toBeLessThan(asked);
            return;
          }
          laid++;
          if (plate.gap !== null) closest = Math.min(closest, plate.gap - spacing);
          expect(faults(items, plate, spacing, small)).toEqual([]);
        },
      ),
      { seed: 20, numRuns: 40 },
    );
    // Both happened, and parts did come as near as they may: a layout that scatters them would pass the rest.
    expect(laid).toBeGreaterThan(15);
    expect(refused).toBeGreaterThan(2);
    expect(closest).toBeLessThan(0.1);
  });

  it('says the gap that is there', () => {
    const items = [part(bracket(60, 70, 9), 3, 10), part(disc(8), 3, 30)];
    const plate = lay(items, 3);
    const parts = plate.placements.map((each) => standing(items, each));
    const between = parts.flatMap((a, k) => parts.slice(k + 1).map((b) => apart(a, b)));
    expect(plate.gap).toBeCloseTo(Math.min(...between), 9);
  });
});

describe('tallest inside', () => {
  const fromMiddle = (items: readonly PlateItem[], each: Plate['placements'][number]): number => {
    const { left, right, front, back } = extent(standing(items, each));
    return Math.hypot((left + right) / 2 - bed.x / 2, (front + back) / 2 - bed.y / 2);
  };

  it('puts the tall ones nearer to the middle than the others', () => {
    const low = part(rectangle(20, 20), 8, 5);
    const tall = part(rectangle(20, 20), 4, 80);
    for (const items of [
      [low, tall],
      [tall, low],
    ]) {
      const plate = lay(items);
      expect(plate.tallestInside).toBe(true);
      const away = (height: number) =>
        plate.placements
          .filter(({ item }) => items[item]!.height === height)
          .map((each) => fromMiddle(items, each));
      expect(Math.max(...away(80))).toBeLessThan(Math.max(...away(5)));
      const mean = (all: number[]) => all.reduce((a, b) => a + b) / all.length;
      expect(mean(away(80))).toBeLessThan(0.6 * mean(away(5)));
    }
  });

  it('says so where room is too scarce for it', () => {
    // In the middle a mast stands in the way of the plate, which takes all but a strip of the bed.
    const items = [part(rectangle(200, 190), 1, 3), part(disc(6), 1, 90)];
    const plate = lay(items);
    expect(plate.tallestInside).toBe(false);
    expect(faults(items, plate, 5)).toEqual([]);
  });
});

describe('turning', () => {
  it('is left alone where everything fits as it lies', () => {
    const plate = lay([part(bracket(50, 30, 8), 6)]);
    expect(plate.placements.every(({ turn }) => turn === 0)).toBe(true);
  });

  it('makes room where it must, only as far as it may', () => {
    const long = rectangle(100, 24);
    const narrow = { x: 60, y: 220, z: 100 };
    const items = [part(long, 1, 10, [0, 90])];
    expect(lay(items, 5, narrow).placements[0]!.turn).toBe(90);
    const refusal = plateOf(kernel, [part(long, 1, 10, [0, 180])], narrow, { spacing: 5 });
    expect(refusal).toEqual({
      ...{ ok: false, code: 'plate_too_wide', item: 0, needs: { x: 110, y: 34, z: 10 } },
      ...{ bed: narrow, asked: 1, fit: 0 },
    });
  });

  it('nests brackets into one another: eleven of which boxes hold six', () => {
    const items = [part(bracket(80, 60, 12), 11)];
    expect(boxed(items, 5)).toBe(6);
    expect(faults(items, lay(items), 5)).toEqual([]);
  });
});

/** How many parts a packer of boxes finds room for, quarter turns allowed, largest first. */
function boxed(items: readonly PlateItem[], spacing: number): number {
  const bin = new MaxRectsBin(bed.x - spacing, bed.y - spacing, 0, {
    ...{ smart: false, pot: false, square: false, logic: 0 },
  });
  return items
    .flatMap(({ outline, count }) => {
      const { left, right, front, back } = extent(outline);
      return Array.from({ length: count }, () => [right - left, back - front] as const);
    })
    .sort(([a, b], [c, d]) => c * d - a * b)
    .filter(([width, depth]) => bin.add(new Rectangle(width + spacing, depth + spacing, 0, 0, false, true)))
    .length;
}

describe('against a packer of boxes', () => {
  it('finds room for as many at least, and for half as many again where parts are no boxes', () => {
    const [ours, theirs] = [[] as number[], [] as number[]];
    fc.assert(
      fc.property(fc.array(anyItem, { minLength: 25, maxLength: 30 }), (some) => {
        const items = some.map((item) => ({ ...item, turns: everyTurn }));
        const plate = plateOf(kernel, items, bed, { spacing: 5 });
        ours.push(plate.ok ? plate.placements.length : plate.fit);
        theirs.push(boxed(items, 5));
        expect(ours.at(-1)).toBeGreaterThanOrEqual(theirs.at(-1)!);
      }),
      { seed: 4, numRuns: 3 },
    );
    const sum = (all: number[]) => all.reduce((a, b) => a + b);
    expect(sum(ours) / sum(theirs)).toBeGreaterThan(1.5);
  });

  it('lays boxes that just fill the bed', () => {
    // 6 times 30 and 7 spacings of 5 are 215.
    const exact = { x: 215, y: 215, z: 50 };
    const items = [part(rectangle(30, 30), 36)];
    expect(faults(items, lay(items, 5, exact), 5, exact)).toEqual([]);
    const one = plateOf(kernel, [part(rectangle(30, 30), 37)], exact, { spacing: 5 });
    expect(one).toMatchObject({ ok: false, code: 'plate_full', asked: 37, fit: 36, item: null });
  });

  it('says of what has more area than the bed how many fit, and takes nothing for that which may fit', () => {
    const many = [part(disc(10, 96), 100)];
    expect(moreThanBed(many, bed, 5)).toBe(true);
    const plate = plateOf(kernel, many, bed, { spacing: 5 });
    expect(plate).toMatchObject({ ok: false, code: 'plate_full', asked: 100 });
    expect(!plate.ok && plate.fit).toBeGreaterThanOrEqual(72);
    // Squares that just fill the bed, gaps and all: half a gap rounds their corners, so they are less than it.
    const exact = { x: 215, y: 215, z: 50 };
    expect(moreThanBed([part(rectangle(30, 30), 36)], exact, 5)).toBe(false);
    expect(moreThanBed([part(rectangle(30, 30), 38)], exact, 5)).toBe(true);
  });

  it('packs discs closer than squares of their size: 72 of which boxes hold 64', () => {
    const items = [part(disc(10, 96), 72)];
    expect(boxed(items, 5)).toBe(64);
    const plate = lay(items);
    expect(faults(items, plate, 5)).toEqual([]);
    // The densest way to lay discs covers pi / sqrt(12) of the plane (Thue, 1910); of 15 mm and half a gap around none does better.
    const covered = 72 * Math.PI * 12.5 ** 2;
    expect(covered / ((bed.x - 5) * (bed.y - 5))).toBeLessThan(Math.PI / Math.sqrt(12));
  });
});

describe('refusals', () => {
  it('say the height that is missing', () => {
    const refusal = plateOf(kernel, [part(rectangle(10, 10)), part(disc(5), 2, 250)], bed, { spacing: 5 });
    expect(refusal).toMatchObject({
      ok: false,
      code: 'plate_too_tall',
      item: 1,
      needs: { z: 250 },
      asked: 3,
      fit: 0,
    });
  });

  it.each([
    ['no spacing', [part(rectangle(1, 1))], bed, 0, /spacing above 0 \(spacing 0 mm\)/],
    ['a bed without depth', [part(rectangle(1, 1))], { ...bed, y: 0 }, 5, /bed 220 x 0 x 240 mm/],
    ['half a copy', [part(rectangle(1, 1), 0.5)], bed, 5, /item 0: .*copies 0.5/],
    ['no outline', [{ ...part(rectangle(1, 1)), outline: [] }], bed, 5, /outlines 0/],
    ['no turn', [part(rectangle(1, 1), 1, 1, [])], bed, 5, /turns 0/],
  ] as const)('of %s', (_, items, on, spacing, words) => {
    expect(() => plateOf(kernel, items, on, { spacing })).toThrow(words);
  });
});

it('gives the same layout again, and leaves nothing in memory', () => {
  const items = [part(bracket(50, 40, 7), 3), part(disc(7, 90), 4, 44), part(rectangle(31.4, 11.1), 3, 2)];
  const first = lay(items);
  for (let k = 0; k < 5; k++) lay(items);
  const before = memory();
  for (let k = 0; k < 20; k++) lay(items);
  expect(memory()).toBe(before);
  expect(lay(items)).toEqual(first);
});

it('knows the area it uses', () => {
  const items = [part(bracket(50, 40, 7), 4), part(disc(9), 3)];
  const plate = lay(items);
  const all = plate.placements.map((each) => extent(standing(items, each)));
  expect(plate.used.from[0]).toBeCloseTo(Math.min(...all.map(({ left }) => left)), 9);
  expect(plate.used.to[1]).toBeCloseTo(Math.max(...all.map(({ back }) => back)), 9);
  const used = (plate.used.to[0] - plate.used.from[0]) * (plate.used.to[1] - plate.used.from[1]);
  const matter = plate.placements.reduce((sum, each) => sum + areaOf(standing(items, each)), 0);
  expect(matter / used).toBeGreaterThan(0.25);
  // In the middle of the bed.
  expect(plate.used.from[0] + plate.used.to[0]).toBeCloseTo(bed.x, 2);
  expect(plate.used.from[1] + plate.used.to[1]).toBeCloseTo(bed.y, 2);
});
