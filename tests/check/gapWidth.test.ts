import { describe, expect, test } from 'vitest';
import { gapWidth } from '../../src/check/gapWidth.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { difference } from '../../src/solid/shape.ts';
import { contextOf, numberOf, only, quarterTurn, withKernel } from './contextOf.ts';

withKernel();

const body = block([0, 0, 0], [12, 8, 4]);
const slotted = (width: number) => difference(body, block([4, 2, 2], [4 + width, 9, 5]));

describe('gap width', () => {
  // The profile's line is 0.42 mm; walls fuse below 0.2 mm.
  test.each([
    [0.15, 'fails'],
    [0.3, 'caution'],
    [0.5, 'holds'],
  ])('slit of %d mm: %s', (width, verdict) => {
    const found = only(gapWidth(contextOf(slotted(width))));
    expect(numberOf(found)).toBeCloseTo(width, 5);
    expect(found).toMatchObject({ id: 'gap', verdict, limit: 0.2, unit: 'mm' });
    expect(found.remedy === '').toBe(verdict === 'holds');
    const [x, , z] = found.at!;
    expect(x).toBeCloseTo(4 + width / 2, 5);
    expect(z).toBeGreaterThan(2);
  });

  test('a hole is as wide as its diameter', () => {
    const drilled = difference(
      body,
      cylinder({ axis: 'z', diameter: 0.6, from: [6, 4, -1], length: 6, sense: 'bore' }),
    );
    expect(numberOf(only(gapWidth(contextOf(drilled))))).toBeCloseTo(0.6, 5);
  });

  test('the roof of a lying bore is no slit, however its last layer falls', () => {
    for (const diameter of [2.8, 2.81, 2.85, 3, 3.1]) {
      const drilled = difference(
        block([0, 0, 0], [6, 8, 8]),
        cylinder({ axis: 'x', diameter, from: [-1, 4, 4], length: 8, sense: 'bore' }),
      );
      // The walls lean by less than 22.5 degrees each where the chord is above cos(22.5 deg) = 0.924 of the
      // diameter, less what one layer's step is worth.
      const width = numberOf(only(gapWidth(contextOf(drilled))));
      expect(width / diameter).toBeGreaterThan(0.9);
      expect(width / diameter).toBeLessThan(1.01);
    }
  });

  test('a slit that slopes by less is one still', () => {
    // Walls 8 degrees apart: 0.3 mm wide at the floor of the groove, 0.86 at the top.
    const groove = prism(
      'y',
      [
        [1.9, 6.15],
        [1.9, 5.85],
        [4.1, 5.7],
        [4.1, 6.3],
      ],
      -1,
      9,
    );
    const width = numberOf(only(gapWidth(contextOf(difference(body, groove)))));
    expect(width).toBeGreaterThan(0.29);
    expect(width).toBeLessThan(0.36);
  });

  test('a plain block has none', () => {
    expect(only(gapWidth(contextOf(body)))).toMatchObject({ verdict: 'holds', value: null, at: null });
  });

  test('turned a quarter the same', () => {
    const found = only(gapWidth(contextOf(slotted(0.3), { turn: quarterTurn })));
    expect(numberOf(found)).toBeCloseTo(0.3, 5);
    expect(found.verdict).toBe('caution');
  });
});
