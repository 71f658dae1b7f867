import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chordError, facets } from '../../src/solid/facets.ts';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import { type Axis, block, cylinder, hull, prism } from '../../src/solid/primitives.ts';
import { area, circle } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';
import { moved, type Shape, union } from '../../src/solid/shape.ts';
import type { Contour, Vec3 } from '../../src/solid/vector.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

function boxOf(shape: Shape): { min: Vec3; max: Vec3 } {
  const { min, max } = realise(scope, shape).boundingBox();
  return { min: [...min], max: [...max] };
}
const near = (v: readonly number[]) => v.map((x) => expect.closeTo(x, 5));
const axes: readonly Axis[] = ['x', 'y', 'z'];

describe('block', () => {
  test('from corner to corner', () => {
    const shape = block([1, -2, 3], [4, 5, 6.5]);
    expect(realise(scope, shape).volume()).toBeCloseTo(3 * 7 * 3.5, 4);
    expect(boxOf(shape)).toEqual({ min: near([1, -2, 3]), max: near([4, 5, 6.5]) });
  });

  test('refuses corners the wrong way round, flat, endless or not a number', () => {
    for (const top of [-1, 0, Number.POSITIVE_INFINITY, Number.NaN])
      expect(() => block([0, 0, 0], [1, 1, top])).toThrow(RangeError);
    expect(() => block([0, 0, 0], [1, 1, -1])).toThrow('size 1 x 1 x -1 mm');
  });
});

describe('prism', () => {
  /** A right triangle, 3 along the first axis of its plane and 1 along the second. */
  const triangle: Contour = [
    [0, 0],
    [3, 0],
    [0, 1],
  ];

  test('draws in (y, z), (z, x), (x, y) across x, y, z', () => {
    expect(boxOf(prism('x', triangle, 5, 7))).toEqual({ min: near([5, 0, 0]), max: near([7, 3, 1]) });
    expect(boxOf(prism('y', triangle, 5, 7))).toEqual({ min: near([0, 5, 0]), max: near([1, 7, 3]) });
    expect(boxOf(prism('z', triangle, 5, 7))).toEqual({ min: near([0, 0, 5]), max: near([3, 1, 7]) });
    for (const axis of axes) expect(realise(scope, prism(axis, triangle, 5, 7)).volume()).toBeCloseTo(3, 5);
  });

  test('a contour that turns inward keeps its area', () => {
    const l: Contour = [
      [0, 0],
      [5, 0],
      [5, 1],
      [1, 1],
      [1, 4],
      [0, 4],
    ];
    for (const axis of axes) expect(realise(scope, prism(axis, l, -1, 1)).volume()).toBeCloseTo(16, 5);
  });

  test('refuses a clockwise contour, one without area, one that is no number, and no length', () => {
    expect(() => prism('z', triangle.toReversed(), 0, 1)).toThrow('area inside -1.5 mm2');
    expect(() =>
      prism(
        'z',
        [
          [0, 0],
          [1, 1],
          [2, 2],
        ],
        0,
        1,
      ),
    ).toThrow(RangeError);
    expect(() =>
      prism(
        'z',
        [
          [0, 0],
          [Number.NaN, 0],
          [0, 2],
        ],
        0,
        1,
      ),
    ).toThrow(RangeError);
    expect(() => prism('z', triangle, 2, 2)).toThrow('from 2 mm, to 2 mm');
  });
});

describe('cylinder', () => {
  test.each(axes)('runs up %s from where it starts', (axis) => {
    const shape = cylinder({ axis, diameter: 4, from: [1, 2, 3], length: 10, sense: 'shaft' });
    const k = axes.indexOf(axis);
    const low = [1, 2, 3].map((x, i) => (i === k ? x : x - 2));
    const high = [1, 2, 3].map((x, i) => (i === k ? x + 10 : x + 2));
    expect(boxOf(shape)).toEqual({ min: near(low), max: near(high) });
  });

  test.each(['shaft', 'bore'] as const)(
    '%s: exact across its axes, and the polygon of its profile',
    (sense) => {
      for (const axis of axes) {
        const shape = cylinder({ axis, diameter: 3.1, from: [0, 0, 0], length: 2, sense });
        const { min, max } = boxOf(shape);
        const across = axes.indexOf(axis) === 0 ? 1 : 0;
        expect(max[across] - min[across]).toBeCloseTo(3.1, 5);
        const polygon = area(circle(3.1, [0, 0], { sense }));
        expect(realise(scope, shape).volume()).toBeCloseTo(2 * polygon, 4);
      }
    },
  );

  test('frustum of the polygon: h (A + sqrt(A B) + B) / 3', () => {
    for (const sense of ['shaft', 'bore'] as const) {
      const n = facets(6, chordError.interface);
      const polygon = (d: number) =>
        (sense === 'bore' ? Math.tan(Math.PI / n) : Math.sin((2 * Math.PI) / n) / 2) * n * (d / 2) ** 2;
      const [a, b] = [polygon(6), polygon(2.5)];
      const shape = cylinder({ axis: 'y', diameter: 6, endDiameter: 2.5, from: [3, 0, 0], length: 4, sense });
      expect(realise(scope, shape).volume()).toBeCloseTo((4 / 3) * (a + Math.sqrt(a * b) + b), 4);
    }
  });

  test('refuses sizes that are not above 0', () => {
    const good = { axis: 'z', diameter: 2, from: [0, 0, 0], length: 3, sense: 'bore' } as const;
    for (const bad of [{ diameter: 0 }, { endDiameter: -1 }, { length: Number.NaN }])
      expect(() => cylinder({ ...good, from: [0, 0, 0], ...bad })).toThrow(RangeError);
  });
});

describe('hull', () => {
  test('prismatoid between two rectangles: h (A + 4 M + B) / 6', () => {
    const shape = hull(block([0, 0, 0], [6, 4, 1]), block([1, 1, 4], [4, 3, 5]));
    // From z = 1 to z = 5 the edges run straight; halfway the rectangle is 4.5 by 3.
    const above = (4 / 6) * (6 * 4 + 4 * 4.5 * 3 + 3 * 2);
    expect(realise(scope, shape).volume()).toBeCloseTo(24 + above, 4);
  });

  test('takes shapes that were moved', () => {
    const rod = cylinder({ axis: 'z', diameter: 2, from: [0, 0, 0], length: 3, sense: 'shaft' });
    const polygon = area(circle(2, [0, 0], { sense: 'shaft' }));
    const slot = hull(rod, moved(rod, [5, 0, 0]));
    expect(realise(scope, slot).volume()).toBeCloseTo(3 * (polygon + 2 * 5), 4);
  });

  test('refuses shapes already combined', () => {
    const two = union(block([0, 0, 0], [1, 1, 1]), block([2, 0, 0], [3, 1, 1]));
    expect(() => hull(two)).toThrow('not yet combined (union)');
    expect(() => hull(moved(two, [1, 0, 0]))).toThrow(RangeError);
  });
});
