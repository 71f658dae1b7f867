import { describe, expect, it } from 'vitest';
import { loadFrame, narrowestGap } from '../../src/check/mouthProfile.ts';
import type { MouthLoad } from '../../src/family/load.ts';
import { place, turn } from '../../src/solid/placement.ts';
import type { Contour, Vec2 } from '../../src/solid/vector.ts';

/** A body with a round bore of diameter 2 at the origin, open downwards by `width`, flaring from `flare` below on. */
function mouth(width: number, flare = 3, shift = 0): Contour {
  const half = width / 2;
  const lip = Math.asin(half);
  const arc: Vec2[] = [];
  for (let k = 0; k <= 80; k++) {
    const angle = -Math.PI / 2 - lip - ((2 * Math.PI - 2 * lip) * k) / 80;
    arc.push([Math.cos(angle) + shift, Math.sin(angle)]);
  }
  const out = half + (2.5 - flare) * Math.tan(Math.PI / 6);
  const lead = (side: 1 | -1): Vec2[] =>
    flare < 2.5
      ? [
          [side * half + shift, -flare],
          [side * out + shift, -2.5],
        ]
      : [[side * half + shift, -2.5]];
  return [[-4, 3], [-4, -2.5], ...lead(-1).reverse(), ...arc, ...lead(1), [4, -2.5], [4, 3]] as Contour;
}

const near: [Vec2, Vec2] = [
  [-0.7, -0.71],
  [0.7, -0.71],
];

describe('narrowestGap', () => {
  it.each([1.1, 1.4, 1.7])('finds a mouth of %d mm, at its inner end', (width) => {
    const gap = narrowestGap([mouth(width)], near)!;
    expect(gap[1][0] - gap[0][0]).toBeCloseTo(width, 6);
    // Where the parallel lips begin: on the bore, to the step of the search.
    expect(Math.abs(gap[0][1] + Math.sqrt(1 - (width / 2) ** 2))).toBeLessThan(0.021);
    expect(gap[0][1]).toBe(gap[1][1]);
  });

  it('takes the inner end though rounding makes the outer one a hair narrower', () => {
    const rounded = mouth(1.4).map(
      ([x, y]): Vec2 => (Math.abs(x) === 0.7 && y === -2.5 ? [x * (1 - 2e-6), y] : [x, y]),
    );
    expect(rounded).not.toEqual(mouth(1.4));
    const gap = narrowestGap([rounded], near)!;
    expect(Math.abs(gap[0][1] + Math.sqrt(1 - 0.49))).toBeLessThan(0.021);
  });

  it('passes over a flare in front of the lips', () => {
    const gap = narrowestGap([mouth(1.4, 1.6)], near)!;
    expect(gap[1][0] - gap[0][0]).toBeCloseTo(1.4, 6);
    expect(gap[0][1]).toBeGreaterThan(-1.6);
  });

  it('follows a mouth that stands a little aside', () => {
    const gap = narrowestGap([mouth(1.4, 3, 0.08)], near)!;
    expect(gap[0][0]).toBeCloseTo(-0.62, 6);
    expect(gap[1][0]).toBeCloseTo(0.78, 6);
  });

  it('is null where there is none', () => {
    const closed: Contour = [
      [-4, -2.5],
      [4, -2.5],
      [4, 3],
      [-4, 3],
    ];
    expect(narrowestGap([closed], near)).toBeNull();
  });
});

describe('loadFrame', () => {
  const load = { at: [1, 2, 3], normal: [1, 0, 0], inward: [0, 0, 1] } as unknown as MouthLoad;
  it('puts the load’s place at the origin, inward up and the bar towards the eye', () => {
    const frame = loadFrame(load);
    expect(place(frame, [1, 2, 3])).toEqual([0, 0, 0]);
    expect(turn(frame, [0, 0, 1])).toEqual([0, 1, 0]);
    expect(turn(frame, [1, 0, 0])).toEqual([0, 0, 1]);
    // Right-handed: no mirror image.
    const [x, y, z] = [turn(frame, [1, 0, 0]), turn(frame, [0, 1, 0]), turn(frame, [0, 0, 1])];
    const volume =
      x[0] * (y[1] * z[2] - y[2] * z[1]) -
      x[1] * (y[0] * z[2] - y[2] * z[0]) +
      x[2] * (y[0] * z[1] - y[1] * z[0]);
    expect(volume).toBeCloseTo(1, 12);
  });
});
