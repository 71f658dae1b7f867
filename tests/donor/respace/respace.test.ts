import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { levelMap } from '../../../src/donor/respace/levelMap.ts';
import { respace } from '../../../src/donor/respace/respace.ts';
import { RespaceRefusal } from '../../../src/donor/respace/respaceRefusal.ts';
import { axisFrame } from '../../../src/donor/spans/axisFrame.ts';
import { sectionAreas } from '../../../src/donor/spans/section.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { union } from '../../../src/solid/shape.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { donorFrom, isClosed, manifoldOf, volumeOf } from './donorOf.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const Z: Vec3 = [0, 0, 1];

describe('respace', () => {
  test('a cube of side 2 grows to a block 3 high', () => {
    const cube = donorFrom(scope, block([0, 0, 0], [2, 2, 2]));
    const { positions, triangles } = respace(cube, Z, [{ from: 0, to: 2, by: 1 }]);
    expect(triangles).toEqual(cube.triangles);
    expect([...positions].filter((_, i) => i % 3 === 2).sort()).toEqual([0, 0, 0, 0, 3, 3, 3, 3]);
  });

  test('several take-ups, and a level that stays', () => {
    const bar = donorFrom(scope, union(block([0, 0, 0], [4, 4, 10]), block([-1, -1, 4], [5, 5, 6])));
    const takeUps = [
      { from: 6, to: 10, by: -1 },
      { from: 0, to: 4, by: -1 },
    ];
    const about = (stays?: number) => {
      const { positions } = respace(bar, Z, takeUps, stays === undefined ? {} : { stays });
      const levels = [...positions].filter((_, i) => i % 3 === 2);
      return [...new Set(levels)].sort((a, b) => a - b);
    };
    expect(about()).toEqual([0, 3, 5, 8]);
    expect(about(5)).toEqual([1, 4, 6, 9]);
  });

  test('a facet that leans into the take-up is bent where it begins: rigid outside, volume as the map says', () => {
    const cone = donorFrom(
      scope,
      cylinder({ axis: 'z', diameter: 20, endDiameter: 4, from: [0, 0, 0], length: 30, sense: 'shaft' }),
    );
    for (const by of [6, -5]) {
      const after = respace(cone, Z, [{ from: 10, to: 18, by }]);
      expect(isClosed(after)).toBe(true);
      expect(manifoldOf(scope, after).genus()).toBe(0);
      const frames = [cone, after].map((mesh) => axisFrame(mesh.positions, Z));
      const areas = (k: 0 | 1, levels: number[]) => [
        ...sectionAreas((k === 0 ? cone : after).triangles, frames[k]!, levels),
      ];
      areas(0, [1, 5, 9.9]).forEach((area, k) => {
        expect(areas(1, [1, 5, 9.9])[k]).toBeCloseTo(area, 9);
      });
      areas(0, [18.1, 24, 29]).forEach((area, k) => {
        expect(areas(1, [18.1 + by, 24 + by, 29 + by])[k]).toBeCloseTo(area, 9);
      });
      // Prismatoid formula between two levels of a pyramid, exact (Euclid XII; any book of tables).
      const [a, m, b] = areas(0, [10 + 1e-9, 14, 18 - 1e-9]) as [number, number, number];
      const between = ((a + 4 * m + b) / 6) * 8;
      expect(volumeOf(after) - volumeOf(cone)).toBeCloseTo((between / 8) * by, 4);
    }
  });

  test.each([
    [[{ from: 1, to: 1, by: 1 }], 'take_up_empty'],
    [[{ from: 0, to: 2, by: -2 }], 'take_up_too_short'],
    [[{ from: 0, to: 2, by: Number.NaN }], 'not_finite'],
    [
      [
        { from: 0, to: 3, by: 1 },
        { from: 2, to: 5, by: 1 },
      ],
      'take_ups_overlap',
    ],
  ])('refuses %o: %s', (takeUps, code) => {
    const cube = donorFrom(scope, block([0, 0, 0], [2, 2, 2]));
    try {
      respace(cube, Z, takeUps);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(RespaceRefusal);
      expect((error as RespaceRefusal).code).toBe(code);
    }
  });
});

test('a level map never goes back, and is one number on each rigid piece', () => {
  const map = levelMap([
    { from: 2, to: 3, by: -0.9 },
    { from: 7, to: 9, by: 4 },
  ]);
  let before = -Infinity;
  for (let level = -1; level < 12; level += 0.01) {
    const to = level + map.shift(level);
    expect(to).toBeGreaterThan(before);
    before = to;
  }
  expect([0, 1, 2].map(map.shift)).toEqual([0, 0, 0]);
  expect([3, 5, 7].map(map.shift)).toEqual([-0.9, -0.9, -0.9]);
  expect(map.shift(9)).toBe(map.shift(100));
});
