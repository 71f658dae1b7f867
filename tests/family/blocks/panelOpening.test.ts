import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearOfCorners, faceCells } from '../../../src/family/blocks/faceCells.ts';
import { knownRange } from '../../../src/family/blocks/knownRange.ts';
import {
  type OpeningForm,
  openingOutline,
  openingReach,
  panelOpening,
  rowCentres,
  rowSpan,
} from '../../../src/family/blocks/panelOpening.ts';
import { ventLayout } from '../../../src/family/blocks/ventSlots.ts';
import { area } from '../../../src/solid/profile.ts';
import type { Vec2 } from '../../../src/solid/vector.ts';

const sizes = { openingWidth: 34, openingHeight: 22, openingDiameter: 26, openingFlat: 24, cornerRadius: 3 };
const forms = ['rectangular', 'rounded', 'round', 'D', 'slotted'] as const;
const row = (form: OpeningForm, count = 1, pitch = 42) => ({
  opening: panelOpening(form, sizes),
  count,
  pitch,
});

describe('outlines', () => {
  // Euclid; of the D a segment of height 2 is missing: r^2 acos((r - h) / r) - (r - h) sqrt(2 r h - h^2).
  const segment = 13 ** 2 * Math.acos(11 / 13) - 11 * Math.sqrt(2 * 13 * 2 - 4);
  it.each([
    ['rectangular', 34 * 22],
    ['rounded', 34 * 22 - (4 - Math.PI) * 9],
    ['round', Math.PI * 13 ** 2],
    ['D', Math.PI * 13 ** 2 - segment],
    ['slotted', 12 * 22 + Math.PI * 11 ** 2],
  ] as const)('%s encloses what its formula says', (form, expected) => {
    const found = area(openingOutline(panelOpening(form, sizes), [5, -3], 0, 'bore'));
    expect(Math.abs(found / expected - 1)).toBeLessThan(2e-3);
  });

  it.each(forms)('%s grows by as much on every side', (form) => {
    const opening = panelOpening(form, sizes);
    const far = (by: number, axis: 0 | 1) => openingOutline(opening, [0, 0], by, 'shaft').map((p) => p[axis]);
    const { low, high } = openingReach(opening);
    for (const by of [-1.6, 0, 2.5]) {
      expect(Math.max(...far(by, 0))).toBeCloseTo(opening.width / 2 + by, 9);
      expect(Math.max(...far(by, 1))).toBeCloseTo(high + by, 9);
      expect(Math.min(...far(by, 1))).toBeCloseTo(low - by, 9);
    }
  });

  it('stand in a row about the middle', () => {
    expect(rowCentres(row('round'))).toEqual([0]);
    expect(rowCentres(row('round', 3))).toEqual([-42, 0, 42]);
    expect(rowSpan(row('rectangular', 2))).toBe(76);
  });
});

describe('cells on the face', () => {
  const inside = (contour: readonly Vec2[], [x, y]: Vec2): boolean =>
    contour.every(([ax, ay], k) => {
      const [bx, by] = contour[(k + 1) % contour.length]!;
      return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -0.02;
    });

  it.each(forms.flatMap((form) => [1, 2, 3].map((count) => [form, count] as const)))(
    'lie in the openings and not on each other: %s, %d',
    (form, count) => {
      const of = row(form, count);
      const cells = Object.values(faceCells(of, ['connector', 'label', 'vents'], [1, 1]));
      expect(cells).toHaveLength(3);
      for (const { x, y, width, height } of cells) {
        const home = rowCentres(of).reduce((a, b) => (Math.abs(b - x) < Math.abs(a - x) ? b : a));
        const outline = openingOutline(of.opening, [home, 0], 0, 'bore');
        for (const [u, v] of [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ] as const)
          expect(inside(outline, [x + (u * width) / 2, y + (v * height) / 2]), `${u} ${v}`).toBe(true);
      }
      const sorted = cells.toSorted((a, b) => a.x - b.x);
      for (const [k, cell] of sorted.slice(1).entries())
        expect(cell.x - cell.width / 2).toBeGreaterThanOrEqual(sorted[k]!.x + sorted[k]!.width / 2 - 1e-9);
    },
  );

  it('keep what goes through them off round corners, however large, and give away no more than that asks', () => {
    const one = fc.record({
      width: fc.double({ min: 20, max: 90, noNaN: true }),
      height: fc.double({ min: 20, max: 90, noNaN: true }),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
      beside: fc.double({ min: 1, max: 4, noNaN: true }),
      deep: fc.double({ min: 1, max: 4, noNaN: true }),
    });
    let [touching, untouched] = [0, 0];
    fc.assert(
      fc.property(one, ({ width, height, share, beside, deep }) => {
        const corner = (share * Math.min(width, height)) / 2;
        const opening = { form: 'rounded', width, height, corner } as const;
        const margin = [beside, deep] as const;
        const whole = faceCells({ opening, count: 1, pitch: 0 }, ['vents'], margin).vents!;
        const cell = clearOfCorners(whole, opening, margin);
        // Distance of a corner of what goes through, 1 mm inside the cell, from the middle of the round one that the wall behind has.
        const [x, y] = [cell.width / 2 - 1, cell.height / 2 - 1];
        const least = Math.min(beside, deep);
        const radius = Math.max(0, corner - least);
        const [u, v] = [x - (width / 2 - least - radius), y - (height / 2 - least - radius)];
        const far = Math.hypot(Math.max(0, u), Math.max(0, v));
        expect(far).toBeLessThanOrEqual(radius + 1e-9);
        if (cell === whole) untouched++;
        else {
          touching++;
          expect(far).toBeCloseTo(radius, 9);
        }
      }),
      { seed: 8, numRuns: 300 },
    );
    expect(Math.min(touching, untouched)).toBeGreaterThan(20);
  });

  it('the example of the doc comment', () => {
    expect(faceCells(row('rectangular'), ['connector', 'label'], [2, 2]).label).toEqual({
      ...{ x: 7.5, y: 0, width: 15, height: 18 },
    });
    expect(ventLayout({ cell: { x: 0, y: 0, width: 20, height: 12 }, vent: 0.9, through: 2 })).toEqual({
      ...{ count: 7, length: 10, bar: 1.6 },
    });
  });
});

it('a known range is twice what is not known either way, scatter of single readings with it', () => {
  const contributors = [{ id: 'reading:panelThickness', u: 0.0224 }];
  const known = { panelThickness: { value: 2.5, u: 0.0245, n: 5, contributors } };
  const { lo, hi } = knownRange({ known }, 'panelThickness', 2.5, true);
  // 0.0224 sqrt(5) = 0.0501; hypot with 0.0245 is 0.0558.
  expect(lo).toBeCloseTo(2.5 - 0.1115, 3);
  expect(hi).toBeCloseTo(2.5 + 0.1115, 3);
  expect(knownRange({ known }, 'panelThickness', 2.5).hi).toBeCloseTo(2.549, 9);
  expect(knownRange({ known: {} }, 'panelThickness', 2.5, true)).toEqual({ lo: 2.5, hi: 2.5 });
});
