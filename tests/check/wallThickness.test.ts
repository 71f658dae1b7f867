import { describe, expect, test } from 'vitest';
import { wallThickness } from '../../src/check/wallThickness.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { difference, union } from '../../src/solid/shape.ts';
import { contextOf, numberOf, only, quarterTurn, withKernel } from './contextOf.ts';

withKernel();

/** A tube 6 high whose upper half is bored out wider: wall 1.5 below, `thin` above. */
const tube = (thin: number, k = 1) =>
  difference(
    cylinder({ axis: 'z', diameter: 8 * k, from: [0, 0, 0], length: 6 * k, sense: 'shaft' }),
    cylinder({ axis: 'z', diameter: 5 * k, from: [0, 0, -1], length: 8 * k, sense: 'bore' }),
    cylinder({ axis: 'z', diameter: (8 - 2 * thin) * k, from: [0, 0, 3 * k], length: 8 * k, sense: 'bore' }),
  );

describe('wall thickness', () => {
  // The profile's line is 0.42 mm.
  test.each([
    [0.3, 'fails', 'one line is 0.42 mm'],
    [0.6, 'caution', 'two lines are 0.84 mm'],
    [1, 'holds', 'two lines are 0.84 mm'],
  ])('tube of %d mm wall: %s', (thin, verdict, wanted) => {
    const found = only(wallThickness(contextOf(tube(thin))));
    expect(Math.abs(numberOf(found) - thin)).toBeLessThan(0.02);
    expect(found).toMatchObject({ id: 'wall', verdict, limit: 0.42, unit: 'mm' });
    expect(found.margin).toBeCloseTo(numberOf(found) - 0.42, 12);
    expect(found.because).toContain(wanted);
    expect(found.remedy === '').toBe(verdict === 'holds');
  });

  test('says where: in the upper half, inside the wall, in bed coordinates', () => {
    const { at } = only(wallThickness(contextOf(tube(0.3))));
    const [x, y, z] = at!;
    expect(z).toBeGreaterThan(3);
    expect(Math.hypot(x - 4, y - 4)).toBeCloseTo(4 - 0.15, 1);
  });

  test('a floor is no wall, a fin on it is', () => {
    const floor = block([0, 0, 0], [20, 20, 0.4]);
    expect(numberOf(only(wallThickness(contextOf(floor))))).toBeCloseTo(20, 5);
    const fin = union(floor, block([5, 5, 0.4], [5.5, 15, 4]));
    expect(numberOf(only(wallThickness(contextOf(fin))))).toBeCloseTo(0.5, 5);
  });

  test('a lead-in chamfer on a post lying on its side is no thin wall', () => {
    const post = prism(
      'z',
      [
        [0, 0],
        [9, 0],
        [10, 0.8],
        [10, 3.2],
        [9, 4],
        [0, 4],
      ],
      0,
      4,
    );
    expect(numberOf(only(wallThickness(contextOf(post))))).toBeGreaterThan(2.3);
  });

  test('a rod lying down is as thick as its diameter, a roof as its eaves', () => {
    const rod = cylinder({ axis: 'x', diameter: 3, from: [0, 0, 0], length: 9, sense: 'shaft' });
    const thick = numberOf(only(wallThickness(contextOf(rod))));
    expect(thick / 3).toBeGreaterThan(0.9);
    expect(thick / 3).toBeLessThan(1.01);
    const house = prism(
      'x',
      [
        [0, 0],
        [6, 0],
        [6, 2],
        [3, 5],
        [0, 2],
      ],
      0,
      12,
    );
    expect(numberOf(only(wallThickness(contextOf(house))))).toBeCloseTo(6, 5);
  });

  test('a first layer drawn in by what it spreads is no thinner', () => {
    const spreads = { printer: { firstLayerSpread: { value: 0.05, u: 0.02 } } };
    const fin = union(block([0.05, 0.05, 0], [0.85, 7.95, 0.2]), block([0, 0, 0.2], [0.9, 8, 4]));
    expect(numberOf(only(wallThickness(contextOf(fin, spreads))))).toBeCloseTo(0.9, 5);
    expect(numberOf(only(wallThickness(contextOf(fin))))).toBeCloseTo(0.8, 5);
    const plain = block([0, 0, 0], [0.9, 8, 4]);
    expect(numberOf(only(wallThickness(contextOf(plain, spreads))))).toBeCloseTo(0.9, 5);
  });

  test('turned a quarter the same; twice the size twice the wall', () => {
    const once = numberOf(only(wallThickness(contextOf(tube(0.6)))));
    expect(numberOf(only(wallThickness(contextOf(tube(0.6), { turn: quarterTurn }))))).toBeCloseTo(once, 3);
    expect(Math.abs(numberOf(only(wallThickness(contextOf(tube(0.6, 2))))) - 2 * once)).toBeLessThan(0.02);
  });

  test('thinner than half a first layer: nothing is printed', () => {
    const sheet = contextOf(block([0, 0, 0], [5, 5, 0.05]));
    expect(only(wallThickness(sheet))).toMatchObject({ verdict: 'fails', value: null });
  });
});
