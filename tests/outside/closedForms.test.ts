// Volumes, areas and centres of gravity of bodies against the formulas of any mensuration table, from memory:
// cylinder pi r^2 h, frustum of a cone pi h (R^2 + R r + r^2) / 3, prismatoid h (A + 4 M + B) / 6, two equal
// cylinders crossing at right angles 16 r^3 / 3 (Archimedes), centre of gravity of
// a cone h / 4 and of a frustum h (R^2 + 2 R r + 3 r^2) / (4 (R^2 + R r + r^2)) above its base.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import { massOf } from '../../src/solid/mass.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, cylinder, hull, prism } from '../../src/solid/primitives.ts';
import { rectangle, stadium } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, intersection, moved, type Shape, union } from '../../src/solid/shape.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const solid = (shape: Shape) => realise(scope, shape);
const rod = (axis: 'x' | 'y' | 'z', diameter: number, length: number, sense: 'shaft' | 'bore' = 'shaft') => {
  const half = -length / 2;
  const from: [number, number, number] = [
    axis === 'x' ? half : 0,
    axis === 'y' ? half : 0,
    axis === 'z' ? half : 0,
  ];
  return cylinder({ axis, diameter, from, length, sense });
};
/** A round of diameter d, out by at most the chord error 0.005 mm on its radius, is out by this share of its area. */
const roundness = (diameter: number): number => (4 * 0.0052) / diameter;

describe('flat-sided bodies, exact but for 32-bit coordinates', () => {
  test('block: a b c and 2 (a b + b c + c a)', () => {
    const made = solid(block([0, 0, 0], [3, 4, 5]));
    expect(made.volume()).toBeCloseTo(60, 5);
    expect(made.surfaceArea()).toBeCloseTo(94, 5);
  });

  test('frustum of a pyramid: h (A + sqrt(A B) + B) / 3', () => {
    const thin = 1e-3;
    const made = solid(hull(block([0, 0, 0], [6, 6, thin]), block([2, 2, 4 - thin], [4, 4, 4])));
    expect(made.volume()).toBeCloseTo((4 / 3) * (36 + Math.sqrt(36 * 4) + 4), 1);
  });

  test('wedge: area of its triangle times its length, centre at a third', () => {
    const made = solid(
      prism(
        'y',
        [
          [0, 0],
          [3, 0],
          [0, 6],
        ],
        0,
        5,
      ),
    );
    expect(made.volume()).toBeCloseTo(45, 5);
    expect(made.surfaceArea()).toBeCloseTo(2 * 9 + 5 * (3 + 6 + Math.hypot(3, 6)), 4);
    // (z, x) = (3, 6) triangle: centre at z = 1, x = 2.
    expect(massOf(meshOf(made)).centre).toEqual([2, 2.5, 1].map((x) => expect.closeTo(x, 5)));
  });

  test('frame: outer less inner, walls on both sides', () => {
    const made = solid(difference(block([0, 0, 0], [10, 8, 2]), block([1, 1, -1], [9, 7, 3])));
    expect(made.volume()).toBeCloseTo((80 - 48) * 2, 4);
    expect(made.surfaceArea()).toBeCloseTo(2 * 32 + 2 * (36 + 28), 4);
  });
});

describe('round bodies, within the chord error', () => {
  test('cylinder: a shaft is a little less, a bore a little more', () => {
    for (const d of [1, 4, 25]) {
      const exact = (Math.PI * d * d * 7) / 4;
      const [shaft, bore] = [solid(rod('z', d, 7)).volume(), solid(rod('z', d, 7, 'bore')).volume()];
      expect(shaft).toBeLessThan(exact);
      expect(shaft).toBeGreaterThan(exact * (1 - roundness(d)));
      expect(bore).toBeGreaterThan(exact);
      expect(bore).toBeLessThan(exact * (1 + roundness(d)));
    }
  });

  test('tube: pi (R^2 - r^2) h, and the area of its four faces', () => {
    const made = solid(difference(rod('y', 12, 9), rod('y', 8, 11, 'bore')));
    expect(made.volume() / (Math.PI * (36 - 16) * 9)).toBeCloseTo(1, 2);
    const faces = 2 * Math.PI * (36 - 16) + 2 * Math.PI * (6 + 4) * 9;
    expect(made.surfaceArea() / faces).toBeCloseTo(1, 2);
  });

  test('frustum of a cone, and where its weight sits', () => {
    const [R, r, h] = [5, 2, 6];
    const made = solid(
      cylinder({
        axis: 'z',
        diameter: 2 * R,
        endDiameter: 2 * r,
        from: [1, 2, 3],
        length: h,
        sense: 'shaft',
      }),
    );
    const exact = (Math.PI * h * (R * R + R * r + r * r)) / 3;
    expect(Math.abs(made.volume() / exact - 1)).toBeLessThan(roundness(2 * R));
    const { volume, centre } = massOf(meshOf(made));
    expect(volume / made.volume()).toBeCloseTo(1, 5);
    const above = (h * (R * R + 2 * R * r + 3 * r * r)) / (4 * (R * R + R * r + r * r));
    expect(centre).toEqual([1, 2, 3 + above].map((x) => expect.closeTo(x, 4)));
  });

  test('two equal cylinders crossing: 16 r^3 / 3', () => {
    const made = solid(intersection(rod('x', 6, 10), rod('y', 6, 10)));
    expect(Math.abs(made.volume() / ((16 / 3) * 27) - 1)).toBeLessThan(roundness(6));
    const both = solid(union(rod('x', 6, 10), rod('y', 6, 10))).volume();
    expect(Math.abs(both / (2 * Math.PI * 9 * 10 - (16 / 3) * 27) - 1)).toBeLessThan(roundness(6));
  });

  test('slotted hole through a plate', () => {
    const slot = prism('z', stadium(3, 8, [0, 0], { sense: 'bore' }), -1, 5);
    const made = solid(difference(prism('z', rectangle([20, 10]), 0, 4), slot));
    const exact = 4 * (200 - (3 * 5 + (Math.PI * 9) / 4));
    expect(made.volume() / exact).toBeCloseTo(1, 3);
    expect(made.genus()).toBe(1);
  });

  test('cap cut off a lying cylinder: segment r^2 acos((r - h) / r) - (r - h) sqrt(2 r h - h^2)', () => {
    const [r, h] = [4, 1.3];
    const made = solid(
      intersection(rod('x', 2 * r, 10), moved(block([-6, -9, 0], [6, 9, 9]), [0, 0, r - h])),
    );
    const segment = r * r * Math.acos((r - h) / r) - (r - h) * Math.sqrt(2 * r * h - h * h);
    expect(made.volume() / (10 * segment)).toBeCloseTo(1, 2);
  });
});
