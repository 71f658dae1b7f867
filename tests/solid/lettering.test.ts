import { beforeAll, describe, expect, it, test } from 'vitest';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { lettering, letteringWidth } from '../../src/solid/lettering.ts';
import { area, dShape, roundedRectangle } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const options = { height: 10, stroke: 1, centre: [3, -2], from: -0.5, to: 0.5 } as const;

describe('lettering', () => {
  it('an I is one stroke as high as a capital: a strip with round ends', () => {
    withScope(kernel, (scope) => {
      const solid = realise(scope, lettering('I', { ...options, centre: [3, -2] }));
      const { min, max } = solid.boundingBox();
      expect([min[0], max[0], min[1], max[1]].map((x) => Number(x.toFixed(3)))).toEqual([
        2.5, 3.5, -7.5, 3.5,
      ]);
      // 10 x 1 and two half hexagons and their like: between inscribed dodecagon and circle.
      expect(solid.volume()).toBeGreaterThan(10 + 0.74);
      expect(solid.volume()).toBeLessThan(10 + Math.PI / 4);
    });
  });

  it.each([
    ['O', 1, 1],
    ['B', 1, 2],
    ['T', 1, 0],
    ['II', 2, 0],
    ['A8', 2, 3],
  ])('%s: %d pieces with %d eyes', (text, pieces, eyes) => {
    withScope(kernel, (scope) => {
      const solids = realise(scope, lettering(text, { ...options, centre: [0, 0] })).decompose();
      expect(solids).toHaveLength(pieces);
      expect(solids.reduce((sum, solid) => sum + solid.genus(), 0)).toBe(eyes);
      for (const solid of solids) solid.delete();
    });
  });

  it('every printable sign makes a sound solid as wide as it says', () => {
    withScope(kernel, (scope) => {
      for (let code = 0x21; code <= 0x7e; code++) {
        const text = String.fromCharCode(code);
        const solid = realise(scope, lettering(text, { ...options, centre: [0, 0] }));
        expect(solid.volume(), text).toBeGreaterThan(0);
        const { min, max } = solid.boundingBox();
        expect(max[0] - min[0], text).toBeLessThanOrEqual(letteringWidth(text, 10, 1) + 1e-6);
        expect(max[0] - min[0], text).toBeGreaterThan(letteringWidth(text, 10, 1) - 0.1);
      }
    });
  });

  it.each(['', ' ', ' A', 'Ü', 'A\nB'])('refuses %j', (text) => {
    expect(() => lettering(text, { ...options, centre: [0, 0] })).toThrow(RangeError);
  });

  it('refuses strokes that close the eyes', () => {
    expect(() => lettering('B', { ...options, stroke: 2.1, centre: [0, 0] })).toThrow('at most a fifth');
  });
});

const shaft = { sense: 'shaft' } as const;
const hole = { sense: 'bore' } as const;

test('a rounded rectangle lacks four corners of r^2 (1 - pi / 4) each', () => {
  const exact = 20 * 12 - 4 * 3 ** 2 * (1 - Math.PI / 4);
  expect(area(roundedRectangle([20, 12], 3, [5, 5], shaft))).toBeLessThan(exact);
  expect(area(roundedRectangle([20, 12], 3, [5, 5], hole))).toBeGreaterThan(exact);
  for (const sense of [shaft, hole]) {
    const contour = roundedRectangle([20, 12], 3, [5, 5], sense);
    expect(area(contour)).toBeCloseTo(exact, 0);
    expect(Math.max(...contour.map(([x]) => x))).toBeCloseTo(15, 2);
    expect(Math.min(...contour.map(([, y]) => y))).toBeCloseTo(-1, 2);
  }
  expect(area(roundedRectangle([20, 12], 0, [0, 0], shaft))).toBeCloseTo(240, 9);
  expect(area(roundedRectangle([12, 12], 6, [0, 0], shaft))).toBeCloseTo(Math.PI * 36, 0);
  expect(() => roundedRectangle([20, 12], 6.1, [0, 0], shaft)).toThrow(RangeError);
});

// A segment of height h is r^2 acos((r - h) / r) - (r - h) sqrt(2 r h - h^2).
test.each([6, 8, 9.5, 10])('a D of 10 mm, %d across, lacks a segment of the circle', (across) => {
  const h = 10 - across;
  const segment = 25 * Math.acos((5 - h) / 5) - (5 - h) * Math.sqrt(10 * h - h * h);
  for (const sense of [shaft, hole]) {
    const contour = dShape(10, across, [1, 2], sense);
    expect(area(contour)).toBeCloseTo(25 * Math.PI - segment, 0);
    expect(Math.max(...contour.map(([, y]) => y))).toBeCloseTo(2 - 5 + across, 1);
    expect(Math.min(...contour.map(([, y]) => y))).toBeCloseTo(-3, 2);
  }
});

test.each([5, 10.1, Number.NaN])('no D of 10 mm is %d across', (across) => {
  expect(() => dShape(10, across, [0, 0], shaft)).toThrow(RangeError);
});
