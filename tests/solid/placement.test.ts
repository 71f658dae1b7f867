import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { after, identity, inverse, matrix, place, shift, turn, up } from '../../src/solid/placement.ts';
import { cross, dot, type Placement, type Vec3 } from '../../src/solid/vector.ts';

const coordinate = fc.double({ min: -100, max: 100, noNaN: true });
const point = fc.tuple(coordinate, coordinate, coordinate) as fc.Arbitrary<Vec3>;
/** Rigid placements from unit quaternions. */
const part = fc.double({ min: -1, max: 1, noNaN: true });
const placement: fc.Arbitrary<Placement> = fc
  .tuple(part, part, part, part, point)
  .filter(([a, b, c, d]) => Math.hypot(a, b, c, d) > 0.1)
  .map(([a, b, c, d, translation]) => {
    const n = Math.hypot(a, b, c, d);
    const [w, x, y, z] = [a / n, b / n, c / n, d / n];
    return {
      rotation: [
        ...[1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
        ...[2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
        ...[2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
      ] as unknown as Placement['rotation'],
      translation,
    };
  });
const near = (p: readonly number[]) => p.map((x) => expect.closeTo(x, 9));

describe('placement', () => {
  test('identity and shift', () => {
    expect(place(identity, [1, 2, 3])).toEqual([1, 2, 3]);
    expect(place(shift([1, 0, -1]), [1, 2, 3])).toEqual([2, 2, 2]);
    expect(turn(shift([1, 0, -1]), [1, 2, 3])).toEqual([1, 2, 3]);
  });

  test('after is one placement on top of the other', () => {
    fc.assert(
      fc.property(placement, placement, point, (p, q, v) => {
        expect(place(after(p, q), v)).toEqual(near(place(p, place(q, v))));
      }),
      { seed: 6 },
    );
  });

  test('inverse undoes from both sides', () => {
    fc.assert(
      fc.property(placement, point, (p, v) => {
        expect(place(inverse(p), place(p, v))).toEqual(near(v));
        expect(place(p, place(inverse(p), v))).toEqual(near(v));
      }),
      { seed: 7 },
    );
  });

  test('the matrix says the same', () => {
    fc.assert(
      fc.property(placement, point, (p, [x, y, z]) => {
        const m = matrix(p);
        const row = (k: number) => m[k]! * x + m[4 + k]! * y + m[8 + k]! * z + m[12 + k]!;
        expect([row(0), row(1), row(2)]).toEqual(near(place(p, [x, y, z])));
      }),
      { seed: 8 },
    );
  });

  test.each([
    ['x', [1, 0, 0]],
    ['-x', [-1, 0, 0]],
    ['y', [0, 1, 0]],
    ['-y', [0, -1, 0]],
    ['z', [0, 0, 1]],
    ['-z', [0, 0, -1]],
  ] as const)('up.%s points that axis up and mirrors nothing', (name, axis) => {
    const p = up[name];
    expect(turn(p, [...axis]).map((x) => x + 0)).toEqual([0, 0, 1]);
    const [i, j, k] = [turn(p, [1, 0, 0]), turn(p, [0, 1, 0]), turn(p, [0, 0, 1])];
    expect(dot(cross(i, j), k)).toBe(1);
  });
});
