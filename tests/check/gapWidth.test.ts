import { describe, expect, test } from 'vitest';
import { gapWidth } from '../../src/check/gapWidth.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
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

  test('a plain block has none', () => {
    expect(only(gapWidth(contextOf(body)))).toMatchObject({ verdict: 'holds', value: null, at: null });
  });

  test('turned a quarter the same', () => {
    const found = only(gapWidth(contextOf(slotted(0.3), { turn: quarterTurn })));
    expect(numberOf(found)).toBeCloseTo(0.3, 5);
    expect(found.verdict).toBe('caution');
  });
});
