import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { plainSpans } from '../../../src/donor/spans/plainSpans.ts';
import type { DonorMesh } from '../../../src/donor/types.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder, prism } from '../../../src/solid/primitives.ts';
import { difference, union } from '../../../src/solid/shape.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { donorFrom } from '../respace/donorOf.ts';
import { turned, turnedAxis } from '../respace/turned.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const X: Vec3 = [1, 0, 0];
const Y: Vec3 = [0, 1, 0];
const Z: Vec3 = [0, 0, 1];

/** A shaft that is turned down: 6 square to 10, a cone to 14, 4 square to 20. */
const shaft = () =>
  donorFrom(
    scope,
    union(
      block([-3, -3, 0], [3, 3, 10]),
      cylinder({ axis: 'z', diameter: 5, endDiameter: 3, from: [0, 0, 9], length: 5, sense: 'shaft' }),
      block([-2, -2, 14], [2, 2, 20]),
    ),
  );
const ends = (mesh: DonorMesh, axis: Vec3) => plainSpans(mesh, axis).map(({ from, to }) => [from, to]);

describe('plainSpans', () => {
  test('a block is one span along each of its edges', () => {
    const mesh = donorFrom(scope, block([1, 2, 3], [11, 22, 33]));
    for (const [axis, from, length, area] of [
      [X, 1, 10, 600],
      [Y, 2, 20, 300],
      [Z, 3, 30, 200],
    ] as const) {
      const [span, ...more] = plainSpans(mesh, axis);
      expect(more).toEqual([]);
      expect(span).toMatchObject({ from, to: from + length, length, contours: 1 });
      expect(span!.area).toBeCloseTo(area, 9);
      expect(span!.available).toBeCloseTo(length - 0.2, 12);
      expect(span!.mismatchArea).toBeLessThan(1e-9);
    }
  });

  test('steps end a span, a cone is none', () => {
    const spans = plainSpans(shaft(), Z);
    expect(spans.map(({ from, to, area }) => [from, to, Number(area.toFixed(9))])).toEqual([
      [0, 10, 36],
      [14, 20, 16],
    ]);
  });

  test('a hole across ends one on both sides', () => {
    const bar = block([0, 0, 0], [40, 6, 6]);
    const hole = cylinder({ axis: 'y', diameter: 3, from: [15, -1, 3], length: 8, sense: 'shaft' });
    expect(ends(donorFrom(scope, bar), X)).toEqual([[0, 40]]);
    expect(ends(donorFrom(scope, difference(bar, hole)), X)).toEqual([
      [0, 13.5],
      [16.5, 40],
    ]);
  });

  test('the area of a bored bar is the closed form of its polygon, with two contours', () => {
    const n = 52; // facets(5, 0.005), as its own example says
    const mesh = donorFrom(
      scope,
      difference(
        block([-5, -5, 0], [5, 5, 30]),
        cylinder({ axis: 'z', diameter: 5, from: [0, 0, -1], length: 40, sense: 'shaft' }),
      ),
    );
    const [span] = plainSpans(mesh, Z);
    expect(span!.area).toBeCloseTo(100 - (n / 2) * 2.5 ** 2 * Math.sin((2 * Math.PI) / n), 4);
    expect(span!.contours).toBe(2);
  });

  test('walls may lean as much as stated, and what that does to the section is told', () => {
    const lean = (degrees: number): DonorMesh => {
      const off = 20 * Math.tan((degrees * Math.PI) / 180);
      return donorFrom(
        scope,
        prism(
          'y',
          [
            [0, 0],
            [0, 10],
            [20, 10 + off],
            [20, 0],
          ].map(([x, z]) => [z!, x!]),
          0,
          5,
        ),
      );
    };
    expect(plainSpans(lean(0.004), X)).toHaveLength(1);
    expect(plainSpans(lean(0.1), X)).toEqual([]);
    const [drafted] = plainSpans(lean(1), X, { angle: 1.01 });
    // From 2 to 98 % of the way, 5 wide.
    expect(drafted!.mismatchArea).toBeCloseTo(0.96 * 20 * Math.tan(Math.PI / 180) * 5, 4);
  });

  test('turned into any direction and rounded as a file does it, the spans are the same', () => {
    const straight = plainSpans(shaft(), Z);
    for (const turn of [0.3, 1.1, 2.5]) {
      const mesh = turned(shaft(), turn);
      const rounded = { ...mesh, positions: Float64Array.from(Float32Array.from(mesh.positions)) };
      const spans = plainSpans(rounded, turnedAxis(Z, turn));
      expect(spans).toHaveLength(2);
      spans.forEach((span, k) => {
        expect(span.from).toBeCloseTo(straight[k]!.from, 4);
        expect(span.to).toBeCloseTo(straight[k]!.to, 4);
        expect(span.area).toBeCloseTo(straight[k]!.area, 3);
      });
    }
  });

  test('scale and place change nothing but the numbers', () => {
    const mesh = shaft();
    for (const scale of [1e-3, 1 / 25.4, 1e4]) {
      const scaled = { ...mesh, positions: mesh.positions.map((p) => scale * (p + 7)) };
      const spans = plainSpans(scaled, Z, { rest: 0 });
      expect(spans.map(({ length }) => length / scale)).toEqual([
        expect.closeTo(10, 6),
        expect.closeTo(6, 6),
      ]);
    }
  });

  test('the gap between two bodies is no span', () => {
    const mesh = donorFrom(scope, union(block([0, 0, 0], [4, 4, 4]), block([10, 0, 0], [14, 4, 4])));
    expect(ends(mesh, X)).toEqual([
      [0, 4],
      [10, 14],
    ]);
  });

  test('spans shorter than asked are left out, and short ones are found when asked', () => {
    const groove = difference(block([0, 0, 0], [50, 5, 5]), block([20, -1, 4], [20.04, 6, 6]));
    const mesh = donorFrom(scope, groove);
    expect(plainSpans(mesh, X)).toHaveLength(2);
    expect(plainSpans(mesh, X, { shortest: 0.03 }).map(({ length }) => length)).toEqual([
      expect.closeTo(20, 5),
      expect.closeTo(0.04, 5),
      expect.closeTo(29.96, 5),
    ]);
    expect(plainSpans(mesh, X, { shortest: 25 })).toHaveLength(1);
  });

  test.each([
    [{ angle: -1 }, /angle from 0 to 45/],
    [{ angle: 46 }, /angle from 0 to 45/],
    [{ shortest: 0 }, /shortest span of at least/],
    [{ rest: -0.1 }, /rest from 0 on/],
  ])('refuses %o', (options, message) => {
    expect(() => plainSpans(shaft(), Z, options)).toThrow(message);
  });

  test('refuses an axis without direction', () => {
    expect(() => plainSpans(shaft(), [0, 0, 0])).toThrow(RangeError);
  });
});
