import { describe, expect, test } from 'vitest';
import { bridge } from '../../src/check/bridge.ts';
import { overhang } from '../../src/check/overhang.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import { contextOf, numberOf, only, quarterTurn, withKernel } from './contextOf.ts';

withKernel();

// The profile: layers of 0.2 mm, 45 deg from the vertical, so 0.2 mm a layer prints clean; line 0.42 mm.
const judge = (shape: Shape, told = {}) => only(overhang(contextOf(shape, told)));
const post = block([8, 8, 0], [12, 12, 6]);

/** A prism whose right side leans out by `degrees` from the vertical. */
const leaning = (degrees: number) =>
  prism(
    'y',
    [
      [0, 0],
      [4, 0],
      [4, 4 + 4 * Math.tan((degrees * Math.PI) / 180)],
      [0, 4],
    ],
    0,
    6,
  );

describe('overhang', () => {
  test('a block has none', () => {
    expect(judge(block([0, 0, 0], [5, 5, 5]))).toMatchObject({ verdict: 'holds', value: 0, at: null });
  });

  test('a part that only narrows has none', () => {
    const cone = cylinder({
      axis: 'z',
      diameter: 10,
      endDiameter: 2,
      from: [0, 0, 0],
      length: 6,
      sense: 'shaft',
    });
    expect(judge(cone)).toMatchObject({ verdict: 'holds', value: 0 });
  });

  test.each([
    [30, 'holds'],
    [45, 'holds'],
    [55, 'caution'],
    [70, 'caution'],
    [75, 'fails'],
  ])('side leaning out %d deg: %s, by one layer times its tangent', (degrees, verdict) => {
    const found = judge(leaning(degrees));
    expect(found.verdict).toBe(verdict);
    expect(numberOf(found)).toBeCloseTo(0.2 * Math.tan((degrees * Math.PI) / 180), 3);
    expect(found.limit).toBeCloseTo(0.2, 9);
    expect(found.details?.['steepness, deg from the vertical']).toBeCloseTo(degrees, 1);
  });

  test('the limit follows the printer', () => {
    const found = judge(leaning(55), { printer: { overhang: 60 } });
    expect(found.verdict).toBe('holds');
    expect(found.limit).toBeCloseTo(0.2 * Math.tan(Math.PI / 3), 9);
  });

  test('square corners are allowed what their sides are', () => {
    const funnel = (degrees: number) => {
      const out = 3 * Math.tan((degrees * Math.PI) / 180);
      return difference(
        block([-out, -out, 0], [4 + out, 4 + out, 3]),
        ...(
          [
            [
              'x',
              [
                [-out - 1, -1],
                [0, -1],
                [0, 0],
                [-out, 3],
                [-out - 1, 3],
              ],
            ],
            [
              'x',
              [
                [4, 0],
                [4, -1],
                [5 + out, -1],
                [5 + out, 3],
                [4 + out, 3],
              ],
            ],
          ] as const
        ).map(([axis, contour]) =>
          prism(
            axis,
            contour.map(([u, v]) => [u, v]),
            -out - 1,
            5 + out,
          ),
        ),
      );
    };
    expect(judge(funnel(44)).verdict).toBe('holds');
  });

  test('T: the arm reaches from the post to its end', () => {
    const found = judge(union(post, block([8, 8, 6], [15, 12, 8])));
    expect(found).toMatchObject({ id: 'overhang', verdict: 'fails', unit: 'mm' });
    expect(numberOf(found)).toBeCloseTo(3, 5);
    const [x, , z] = found.at!;
    expect(x).toBeCloseTo(7, 5);
    expect(z).toBeCloseTo(6, 5);
  });

  test('table: the top reaches diagonally past its leg', () => {
    const table = union(post, block([5, 5, 6], [15, 15, 8]));
    expect(numberOf(judge(table))).toBeCloseTo(Math.hypot(3, 3), 5);
    expect(only(bridge(contextOf(table)))).toMatchObject({ value: 0, verdict: 'holds' });
  });

  test('mushroom: a round head past a round stem', () => {
    const mushroom = union(
      cylinder({ axis: 'z', diameter: 4, from: [0, 0, 0], length: 5, sense: 'shaft' }),
      cylinder({ axis: 'z', diameter: 9, from: [0, 0, 5], length: 2, sense: 'shaft' }),
    );
    expect(Math.abs(numberOf(judge(mushroom)) - 2.5)).toBeLessThan(0.01);
  });

  test('a piece that starts in the air', () => {
    const hook = union(block([0, 0, 0], [3, 3, 9]), block([0, 0, 7], [8, 3, 9]), block([6, 0, 4], [8, 3, 8]));
    const found = judge(hook);
    expect(found.verdict).toBe('fails');
    expect(found.because).toContain('starts in the air');
    expect(numberOf(found)).toBeCloseTo(5, 5);
    expect(found.at![2]).toBeCloseTo(4, 5);
  });

  test('a step of less than a facet is not worth a word', () => {
    expect(judge(union(post, block([7.985, 8, 3], [12, 12, 6]))).verdict).toBe('holds');
  });

  test('a first layer drawn in by what it spreads carries the second', () => {
    const relieved = (by: number) =>
      union(block([by, by, 0], [10 - by, 10 - by, 0.2]), block([0, 0, 0.2], [10, 10, 3]));
    const spreads = { printer: { firstLayerSpread: { value: 0.3, u: 0.1 } } };
    expect(judge(relieved(0.3), spreads).verdict).toBe('holds');
    expect(judge(relieved(0.3)).verdict).toBe('caution');
    const found = judge(relieved(0.6), spreads);
    expect(found.verdict).toBe('caution');
    expect(numberOf(found)).toBeCloseTo(Math.hypot(0.6, 0.6) - 0.3, 5);
  });

  test('turned a quarter the same', () => {
    const table = union(post, block([5, 6, 6], [16, 15, 8]));
    const [a, b] = [judge(table), judge(table, { turn: quarterTurn })];
    expect(b.verdict).toBe(a.verdict);
    expect(numberOf(b)).toBeCloseTo(numberOf(a), 6);
  });
});
