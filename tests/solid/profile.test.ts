import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chordError, facets } from '../../src/solid/facets.ts';
import { area, circle, hexagon, rectangle, stadium } from '../../src/solid/profile.ts';
import type { Contour } from '../../src/solid/vector.ts';

const extent = (contour: Contour, axis: 0 | 1): [number, number] => {
  const values = contour.map((p) => p[axis]);
  return [Math.min(...values), Math.max(...values)];
};

/** Distance of the furthest vertex and of the nearest side from a point. */
function rim(contour: Contour, [x, y]: readonly [number, number]): { vertex: number; side: number } {
  const vertex = Math.max(...contour.map(([u, v]) => Math.hypot(u - x, v - y)));
  const side = Math.min(
    ...contour.map(([u, v], i) => {
      const [s, t] = contour[(i + 1) % contour.length]!;
      return Math.abs((s - u) * (y - v) - (t - v) * (x - u)) / Math.hypot(s - u, t - v);
    }),
  );
  return { vertex, side };
}

describe('rectangle', () => {
  test('counter-clockwise about its middle', () => {
    const contour = rectangle([4, 3], [10, -2]);
    expect(area(contour)).toBe(12);
    expect(extent(contour, 0)).toEqual([8, 12]);
    expect(extent(contour, 1)).toEqual([-3.5, -0.5]);
  });
});

test('a hexagon is counter-clockwise, with the area of six triangles: 2 sqrt(3) (s / 2)^2', () => {
  const contour = hexagon(10);
  expect(area(contour)).toBeCloseTo(2 * Math.sqrt(3) * 25, 12);
  expect(extent(contour, 1)[1]).toBeCloseTo(5, 12);
  expect(extent(contour, 0)[1]).toBeCloseTo(10 / Math.sqrt(3), 12);
});

describe('circle', () => {
  test('a shaft keeps inside the circle, a bore outside, both within the chord error', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 60, noNaN: true }),
        fc.constantFrom('interface' as const, 'plain' as const),
        (d, surface) => {
          const error = chordError[surface];
          const at: [number, number] = [1, -3];
          const shaft = rim(circle(d, at, { sense: 'shaft', surface }), at);
          expect(shaft.vertex).toBeCloseTo(d / 2, 9);
          expect(shaft.side).toBeGreaterThan(d / 2 - error - 1e-9);
          const bore = rim(circle(d, at, { sense: 'bore', surface }), at);
          expect(bore.side).toBeCloseTo(d / 2, 9);
          // The corner of a bore stands out by the sagitta over the cosine, a few per cent more.
          expect(bore.vertex).toBeLessThan(d / 2 + error * 1.04);
        },
      ),
      { seed: 5 },
    );
  });

  test('areas of the regular polygons: n r^2 sin(2 pi / n) / 2 inside, n r^2 tan(pi / n) outside', () => {
    const [d, r] = [5, 2.5];
    const n = facets(d, chordError.interface);
    expect(area(circle(d, [7, 7], { sense: 'shaft' }))).toBeCloseTo(
      (n * r * r * Math.sin((2 * Math.PI) / n)) / 2,
      9,
    );
    expect(area(circle(d, [7, 7], { sense: 'bore' }))).toBeCloseTo(n * r * r * Math.tan(Math.PI / n), 9);
  });
});

describe('stadium', () => {
  test.each(['shaft', 'bore'] as const)('%s: exact across and along, area of circle and middle', (sense) => {
    const contour = stadium(1.93, 5.4, [2, 1], { sense });
    expect(extent(contour, 0)).toEqual([2 - 2.7, 2 + 2.7].map((x) => expect.closeTo(x, 9)));
    expect(extent(contour, 1)).toEqual([1 - 0.965, 1 + 0.965].map((x) => expect.closeTo(x, 9)));
    const ends = area(circle(1.93, [0, 0], { sense }));
    expect(area(contour)).toBeCloseTo(ends + 1.93 * (5.4 - 1.93), 9);
  });

  test('as long as wide: a circle', () => {
    expect(stadium(3, 3, [0, 0], { sense: 'bore' })).toEqual(circle(3, [0, 0], { sense: 'bore' }));
  });

  test('refuses what is shorter than wide, or has no width', () => {
    expect(() => stadium(3, 2.9, [0, 0], { sense: 'bore' })).toThrow(/width 3 mm, overall 2.9 mm/);
    expect(() => stadium(0, 2, [0, 0], { sense: 'bore' })).toThrow(RangeError);
    expect(() => stadium(Number.NaN, 2, [0, 0], { sense: 'shaft' })).toThrow(RangeError);
  });
});

describe('area', () => {
  test('negative clockwise, the shoelace of a trapezium', () => {
    const trapezium: Contour = [
      [0, 0],
      [6, 0],
      [4, 3],
      [1, 3],
    ];
    expect(area(trapezium)).toBe(((6 + 3) / 2) * 3);
    expect(area(trapezium.toReversed())).toBe(-13.5);
  });
});
