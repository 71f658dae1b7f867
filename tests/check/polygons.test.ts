import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  chordThrough,
  contains,
  convexHull,
  depthInside,
  distanceToSides,
} from '../../src/check/polygons.ts';
import { area, rectangle } from '../../src/solid/profile.ts';
import type { Vec2 } from '../../src/solid/vector.ts';

const square = rectangle([4, 4]);
const hole = rectangle([2, 2]).toReversed();

describe('polygons', () => {
  test('distance to sides: beside, off a corner, inside', () => {
    expect(distanceToSides([5, 0], [square])).toBe(3);
    expect(distanceToSides([5, 6], [square])).toBe(5);
    expect(distanceToSides([0, 0.5], [square])).toBe(1.5);
    expect(distanceToSides([0, 0], [])).toBe(Infinity);
  });

  test('contains leaves holes out', () => {
    expect(contains([square, hole], [1.5, 0])).toBe(true);
    expect(contains([square, hole], [0, 0])).toBe(false);
    expect(contains([square, hole], [3, 0])).toBe(false);
  });

  test('chord through a point stops at the nearest sides', () => {
    expect(chordThrough([0, 0.5], [1, 0], [square])).toBe(4);
    expect(chordThrough([0, 0], [Math.SQRT1_2, Math.SQRT1_2], [square])).toBeCloseTo(4 * Math.SQRT2, 9);
    expect(chordThrough([1.5, 0.2], [1, 0], [square, hole])).toBe(1);
    expect(chordThrough([3, 0], [1, 0], [square])).toBe(Infinity);
  });

  test('hull of a cross is an octagon without the inner corners', () => {
    const cross: Vec2[] = [...rectangle([6, 2]), ...rectangle([2, 6]), [0, 0], [0, 3]];
    const hull = convexHull(cross);
    expect(hull).toHaveLength(8);
    expect(area(hull)).toBeCloseTo(36 - 4 * 2, 9);
  });

  test('hull holds every point and is convex', () => {
    const coordinate = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 40 }), (points) => {
        const hull = convexHull(points);
        fc.pre(hull.length >= 3 && area(hull) > 1e-3);
        for (const p of points) expect(depthInside(p, hull)).toBeGreaterThan(-1e-9);
      }),
      { seed: 3 },
    );
  });

  test('depth inside: positive within, negative without, none in a line', () => {
    expect(depthInside([1, 0], square)).toBe(1);
    expect(depthInside([4, 0], square)).toBe(-2);
    expect(
      depthInside(
        [0, 0],
        convexHull([
          [0, 0],
          [1, 1],
          [2, 2],
        ]),
      ),
    ).toBe(-Infinity);
  });
});
