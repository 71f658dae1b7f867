import { describe, expect, test } from 'vitest';
import { bridge } from '../../src/check/bridge.ts';
import { overhang } from '../../src/check/overhang.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import type { Placement } from '../../src/solid/vector.ts';
import { contextOf, numberOf, only, quarterTurn, withKernel } from './contextOf.ts';

withKernel();

// The profile bridges 10 mm.
const span = (shape: Shape, told = {}) => only(bridge(contextOf(shape, told)));

/** Two walls 4 mm deep, `gap` apart, with a lintel across. */
const gate = (gap: number) =>
  union(
    block([0, 0, 0], [3, 4, 6]),
    block([3 + gap, 0, 0], [6 + gap, 4, 6]),
    block([0, 0, 6], [6 + gap, 4, 8]),
  );

describe('bridge', () => {
  test.each([
    [2, 'holds'],
    [9.5, 'holds'],
    [12, 'fails'],
  ])('gate %d mm wide: %s, and no overhang', (gap, verdict) => {
    const found = span(gate(gap));
    expect(numberOf(found)).toBeCloseTo(gap, 3);
    expect(found).toMatchObject({ id: 'bridge', verdict, limit: 10, unit: 'mm' });
    expect(found.margin).toBeCloseTo(10 - gap, 3);
    expect(found.at![0]).toBeCloseTo(3 + gap / 2, 3);
    expect(found.at![2]).toBeCloseTo(6, 5);
    expect(only(overhang(contextOf(gate(gap)))).verdict).toBe('holds');
  });

  test('nothing to bridge', () => {
    expect(span(block([0, 0, 0], [9, 9, 3]))).toMatchObject({
      value: 0,
      verdict: 'holds',
      at: null,
      margin: 10,
    });
  });

  test('roof of a closed box: across its short side', () => {
    const box = difference(block([0, 0, 0], [20, 10, 6]), block([2, 2, 2], [18, 8, 4]));
    expect(numberOf(span(box))).toBeCloseTo(6, 3);
  });

  test('roof over a round pocket: its diameter', () => {
    const pot = difference(
      block([0, 0, 0], [10, 10, 6]),
      cylinder({ axis: 'z', diameter: 5, from: [5, 5, 1], length: 3, sense: 'bore' }),
    );
    expect(Math.abs(numberOf(span(pot)) - 5)).toBeLessThan(0.05);
  });

  test('round hole lying down closes over a chord', () => {
    const [radius, layer] = [1.25, 0.2];
    const drilled = difference(
      block([0, 0, 0], [10, 8, 8]),
      cylinder({ axis: 'x', diameter: 2 * radius, from: [-1, 4, 4], length: 12, sense: 'bore' }),
    );
    // Layers are cut at odd tenths; the highest cut that still meets the hole decides.
    const open = Array.from({ length: 40 }, (_, k) => (k + 0.5) * layer - 4)
      .filter((z) => z < radius)
      .at(-1)!;
    expect(Math.abs(numberOf(span(drilled)) - 2 * Math.sqrt(radius ** 2 - open ** 2))).toBeLessThan(0.03);
  });

  test('slab on two narrow pillars: bridged between them, hanging beside', () => {
    const slab = union(
      block([0, 3, 0], [3, 7, 6]),
      block([11, 3, 0], [14, 7, 6]),
      block([0, 0, 6], [14, 10, 8]),
    );
    expect(numberOf(span(slab))).toBeCloseTo(8, 2);
    const hanging = only(overhang(contextOf(slab)));
    expect(hanging.verdict).toBe('fails');
    expect(Math.abs(numberOf(hanging) - 3)).toBeLessThan(0.35);
  });

  test('turned, the same span', () => {
    expect(numberOf(span(gate(7), { turn: quarterTurn }))).toBeCloseTo(7, 3);
    const [c, s] = [Math.cos(0.4), Math.sin(0.4)];
    const askew: Placement = { rotation: [c, -s, 0, s, c, 0, 0, 0, 1], translation: [0, 0, 0] };
    expect(numberOf(span(gate(7), { turn: askew }))).toBeCloseTo(7, 3);
  });
});
