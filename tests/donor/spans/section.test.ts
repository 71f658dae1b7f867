import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sectionAt } from '../../../src/donor/spans/section.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { area } from '../../../src/solid/profile.ts';
import { realise } from '../../../src/solid/realise.ts';
import { difference, union } from '../../../src/solid/shape.ts';
import { donorFrom, donorOf, manifoldOf } from '../respace/donorOf.ts';
import { turned, turnedAxis } from '../respace/turned.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const bracket = difference(
  union(
    block([0, 0, 0], [30, 20, 4]),
    cylinder({ axis: 'z', diameter: 9, endDiameter: 5, from: [8, 9, 3], length: 12, sense: 'shaft' }),
    block([20, 2, 0], [26, 18, 11]),
  ),
  cylinder({ axis: 'z', diameter: 3, from: [8, 9, -1], length: 30, sense: 'bore' }),
  cylinder({ axis: 'x', diameter: 4, from: [-1, 10, 7.5], length: 40, sense: 'bore' }),
);

describe('sectionAt', () => {
  test('agrees with the sections of Manifold at many levels', () => {
    const solid = realise(scope, bracket);
    const mesh = donorOf(solid);
    for (let level = 0.13; level < 15; level += 0.37) {
      const found = sectionAt(mesh, [0, 0, 1], level);
      const slice = scope.keep(solid.slice(level));
      expect(found.closed).toBe(true);
      expect(found.area).toBeCloseTo(slice.area(), 4);
      expect(found.contours.filter((contour) => Math.abs(area(contour)) > 1e-9)).toHaveLength(
        slice.numContour(),
      );
    }
  });

  test('along x and y too: Manifold cuts the part laid on its side', () => {
    const mesh = donorFrom(scope, bracket);
    const onSide = {
      // z up becomes x: (x, y, z) to (y, z, x), and (z, x, y) for y.
      x: { ...mesh, positions: shuffled(mesh.positions, [1, 2, 0]) },
      y: { ...mesh, positions: shuffled(mesh.positions, [2, 0, 1]) },
    };
    for (const [axis, laid] of [
      [[1, 0, 0], onSide.x],
      [[0, 1, 0], onSide.y],
    ] as const) {
      const solid = manifoldOf(scope, laid);
      for (let level = 0.4; level < 19; level += 1.7)
        expect(sectionAt(mesh, [...axis], level).area).toBeCloseTo(scope.keep(solid.slice(level)).area(), 4);
    }
  });

  test('turned into any direction the area stays', () => {
    const mesh = donorFrom(scope, bracket);
    for (const angle of [0.4, 1.9])
      for (const level of [1, 3.3, 7])
        expect(sectionAt(turned(mesh, angle), turnedAxis([0, 0, 1], angle), level).area).toBeCloseTo(
          sectionAt(mesh, [0, 0, 1], level).area,
          9,
        );
  });

  test('outer contours run counter-clockwise seen from the tip of the axis, holes clockwise', () => {
    const tube = difference(block([0, 0, 0], [4, 6, 5]), block([1, 1, -1], [3, 5, 6]));
    for (const axis of [
      [0, 0, 1],
      [0, 0, -1],
    ] as const) {
      const { contours } = sectionAt(donorFrom(scope, tube), [...axis], axis[2] * 2);
      expect(contours.map(area).sort((a, b) => a - b)).toEqual([
        expect.closeTo(-8, 9),
        expect.closeTo(24, 9),
      ]);
    }
  });

  test('a level through vertices counts them as above: the section just below', () => {
    const stepped = donorFrom(scope, union(block([0, 0, 0], [4, 4, 2]), block([0, 0, 2], [2, 2, 5])));
    expect(sectionAt(stepped, [0, 0, 1], 2).area).toBeCloseTo(16, 9);
    expect(sectionAt(stepped, [0, 0, 1], 2 + 1e-6).area).toBeCloseTo(4, 9);
    expect(sectionAt(stepped, [0, 0, 1], 6).area).toBe(0);
  });

  test('an open surface is told', () => {
    const { positions, triangles } = donorFrom(scope, block([0, 0, 0], [2, 2, 2]));
    const open = { positions, triangles: triangles.slice(3) };
    const levels = [0.5, 1, 1.5];
    const told = (
      [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const
    ).flatMap((axis) => levels.map((level) => sectionAt(open, [...axis], level).closed));
    expect(told).toContain(false);
  });
});

function shuffled(positions: Float64Array, [a, b, c]: readonly [number, number, number]): Float64Array {
  return positions.map((_, i) => positions[i - (i % 3) + [a, b, c][i % 3]!]!);
}
