import { describe, expect, test } from 'vitest';
import { identity } from '../../src/solid/placement.ts';
import { block } from '../../src/solid/primitives.ts';
import { difference, intersection, moved, placed, union } from '../../src/solid/shape.ts';

const [a, b] = [block([0, 0, 0], [1, 1, 1]), block([1, 0, 0], [2, 1, 1])];

describe('shape', () => {
  test.each([
    ['union', union],
    ['difference', difference],
    ['intersection', intersection],
  ] as const)('%s keeps order, is itself of one, and nothing of none', (kind, combine) => {
    expect(combine(a, b)).toEqual({ kind, of: [a, b] });
    expect(combine(a)).toBe(a);
    expect(() => combine()).toThrow(`${kind} requires at least 1 shape`);
  });

  test('moved turns nothing, placed takes any placement', () => {
    expect(moved(a, [1, 2, 3])).toEqual({
      kind: 'placed',
      of: a,
      placement: { ...identity, translation: [1, 2, 3] },
    });
    expect(placed(a, identity)).toEqual(moved(a, [0, 0, 0]));
  });

  test('is plain data that another thread can be sent', () => {
    expect(structuredClone(difference(a, moved(b, [0, 0, 1])))).toEqual(difference(a, moved(b, [0, 0, 1])));
  });
});
