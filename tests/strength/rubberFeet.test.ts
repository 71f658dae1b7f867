import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../src/solid/vector.ts';
import { compressBlock } from '../../src/strength/rubberBlock.ts';
import type { RubberFoot } from '../../src/strength/rubberFeet.ts';
import { levelFeet, settleRubber } from '../../src/strength/rubberFeet.ts';

const compound = { modulus: 4, shapeShare: 0.6, bulk: 1100 };
const corners: Vec2[] = [
  [0, 0],
  [300, 0],
  [300, 200],
  [0, 200],
];
const foot = (at: Vec2, height: number, diameter = 15): RubberFoot => ({
  at,
  block: { outline: { kind: 'disc', diameter }, height, compound },
});
const total = (loads: readonly number[]) => loads.reduce((sum, f) => sum + f, 0);

/** Legs on a machine of some size, and a centre of gravity well among them. */
const machines = fc.record({
  diameters: fc.array(fc.double({ min: 6, max: 25, noNaN: true }), { minLength: 4, maxLength: 4 }),
  heights: fc.array(fc.double({ min: 4, max: 9, noNaN: true }), { minLength: 4, maxLength: 4 }),
  x: fc.double({ min: 60, max: 240, noNaN: true }),
  y: fc.double({ min: 40, max: 160, noNaN: true }),
  weight: fc.double({ min: 5, max: 200, noNaN: true }),
});

describe('rubber feet', () => {
  it('four alike under the middle each take a quarter, as a single block would', () => {
    const { blocks, heights, gaps } = settleRubber(
      corners.map((at) => foot(at, 6)),
      [150, 100],
      80,
    );
    const alone = compressBlock(foot([0, 0], 6).block, 20);
    for (const [i, block] of blocks.entries()) {
      expect(block.force).toBeCloseTo(20, 7);
      expect(block.height).toBeCloseTo(alone.height, 9);
      expect(heights[i]).toBeCloseTo(alone.height, 9);
      expect(gaps[i]).toBe(0);
    }
  });

  it('are in balance, on a plane, and pressed as their own curves say, whatever their heights', () => {
    let hanging = 0;
    fc.assert(
      fc.property(machines, ({ diameters, heights, x, y, weight }) => {
        const feet = corners.map((at, i) => foot(at, heights[i]!, diameters[i]!));
        const settled = settleRubber(feet, [x, y], weight);
        const loads = settled.blocks.map((b) => b.force);
        expect(total(loads) / weight).toBeCloseTo(1, 7);
        expect(total(loads.map((f, i) => f * corners[i]![0])) / weight).toBeCloseTo(x, 4);
        expect(total(loads.map((f, i) => f * corners[i]![1])) / weight).toBeCloseTo(y, 4);
        const [a, b, c, d] = settled.heights as [number, number, number, number];
        expect(a + c).toBeCloseTo(b + d, 7);
        for (const [i, block] of settled.blocks.entries()) {
          expect(compressBlock(feet[i]!.block, block.force).height).toBeCloseTo(block.height, 7);
          expect(block.height + settled.gaps[i]!).toBeCloseTo(settled.heights[i]!, 7);
          if (block.force === 0) hanging++;
        }
      }),
      { seed: 41, numRuns: 300 },
    );
    expect(hanging).toBeGreaterThan(30);
  });

  it('drawn by levelFeet the machine stands as asked, all feet carrying or just touching', () => {
    fc.assert(
      fc.property(
        machines,
        fc.double({ min: 0, max: 30, noNaN: true }),
        ({ diameters, x, y, weight }, rise) => {
          const loaded = [6, 6, 6 + rise, 6 + rise];
          const feet = corners.map((at, i) => ({
            ...foot(at, 1, diameters[i]!),
            stiff: i > 1 ? rise : 0,
          }));
          const drawn = levelFeet(feet, loaded, [x, y], weight);
          const settled = settleRubber(
            feet.map((f, i) => ({ ...f, block: { ...f.block, height: drawn[i]! } })),
            [x, y],
            weight,
          );
          for (const i of [0, 1, 2, 3]) {
            expect(settled.heights[i]).toBeCloseTo(loaded[i]!, 6);
            expect(settled.gaps[i]).toBeLessThan(1e-6);
            expect(drawn[i]).toBeGreaterThanOrEqual(loaded[i]! - (i > 1 ? rise : 0));
          }
        },
      ),
      { seed: 42, numRuns: 300 },
    );
  });

  it('refuses heights that are missing or used up by the stiff part, and a negative stiff part', () => {
    const feet = corners.map((at) => foot(at, 6));
    expect(() => levelFeet(feet, [6, 6], [150, 100], 10)).toThrow(
      'level feet requires heights for all 4 feet (given 2)',
    );
    expect(() =>
      levelFeet(
        feet.map((f) => ({ ...f, stiff: 6 })),
        [6, 6, 6, 6],
        [150, 100],
        10,
      ),
    ).toThrow('rubber block requires height under load above 0 (given 0)');
    expect(() => settleRubber([{ ...feet[0]!, stiff: -1 }, ...feet.slice(1)], [150, 100], 10)).toThrow(
      'foot requires stiff 0 mm or above (given -1)',
    );
  });
});
