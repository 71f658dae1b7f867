import { describe, expect, it } from 'vitest';
import type { Contour } from '../../src/solid/vector.ts';
import { profileBelow } from '../../src/strength/profileBelow.ts';

const area = (contours: readonly Contour[]) =>
  contours.reduce(
    (sum, c) =>
      sum +
      c.reduce((s, p, i) => {
        const q = c[(i + 1) % c.length]!;
        return s + (p[0] * q[1] - q[0] * p[1]) / 2;
      }, 0),
    0,
  );
const square: Contour = [
  [0, 0],
  [4, 0],
  [4, 4],
  [0, 4],
];
const hole: Contour = [
  [1, 1],
  [1, 3],
  [3, 3],
  [3, 1],
];

describe('profileBelow', () => {
  it.each([
    ['nothing', -1, 0, 0],
    ['nothing, the edge on the line', 0, 0, 0],
    ['below the hole', 0.5, 2, 1],
    ['two legs and a floor, through the hole', 2, 8 - 2, 1],
    ['with the hole whole', 3.5, 14 - 4, 2],
    ['everything', 9, 12, 2],
  ])('%s', (_, cut, expected, count) => {
    const below = profileBelow([square, hole], cut);
    expect(area(below)).toBeCloseTo(expected, 12);
    expect(below).toHaveLength(count);
    for (const p of below.flat()) expect(p[1]).toBeLessThanOrEqual(cut);
  });

  it('parts a fork into its prongs', () => {
    const fork: Contour = [
      [0, 0],
      [1, 0],
      [1, 3],
      [3, 3],
      [3, 0],
      [4, 0],
      [4, 4],
      [0, 4],
    ];
    expect(profileBelow([fork], 2)).toHaveLength(2);
    expect(area(profileBelow([fork], 2))).toBeCloseTo(4, 12);
    expect(area(profileBelow([fork], 3.5))).toBeCloseTo(8, 12);
  });
});
