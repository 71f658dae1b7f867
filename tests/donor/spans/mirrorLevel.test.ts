import { afterAll, beforeAll, expect, test } from 'vitest';
import { mirrorLevel } from '../../../src/donor/spans/mirrorLevel.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder, prism } from '../../../src/solid/primitives.ts';
import { difference, type Shape, union } from '../../../src/solid/shape.ts';
import type { Contour, Vec3 } from '../../../src/solid/vector.ts';
import { donorFrom } from '../respace/donorOf.ts';
import { turned, turnedAxis } from '../respace/turned.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const X: Vec3 = [1, 0, 0];
const plate = block([10, 0, 0], [60, 30, 5]);
const bore = (x: number, y: number, diameter = 4) =>
  cylinder({ axis: 'z', diameter, from: [x, y, -1], length: 10, sense: 'bore' });
const level = (shape: Shape) => mirrorLevel(donorFrom(scope, shape), X);

test('a plate with bores on both sides mirrors in its middle', () => {
  expect(level(plate)).toBe(35);
  expect(level(difference(plate, bore(20, 12), bore(50, 12)))).toBe(35);
  expect(level(difference(plate, bore(35, 8)))).toBe(35);
});

test('one bore more, wider, or elsewhere and it does not', () => {
  expect(level(difference(plate, bore(20, 12)))).toBeNull();
  expect(level(difference(plate, bore(20, 12), bore(50, 12, 4.5)))).toBeNull();
  expect(level(difference(plate, bore(20, 12), bore(50, 13)))).toBeNull();
  expect(level(difference(plate, bore(20, 12), bore(50.3, 12)))).toBeNull();
  expect(level(difference(plate, bore(20, 12, 1.2)))).toBeNull();
});

test('same areas and moments on both sides are not enough: a hexagon turned by 30 degrees', () => {
  const hexagon = (turn: number): Contour =>
    Array.from({ length: 6 }, (_, k) => {
      const angle = turn + (k * Math.PI) / 3;
      return [6 * Math.cos(angle), 6 * Math.sin(angle)];
    });
  const ends = (turn: number) =>
    union(prism('x', hexagon(0), 0, 8), block([5, -2, -2], [25, 2, 2]), prism('x', hexagon(turn), 22, 30));
  expect(level(ends(0))).toBe(15);
  expect(level(ends(Math.PI / 6))).toBeNull();
});

test('in any direction, and a lone vertex more makes no difference', () => {
  const shape = difference(plate, bore(20, 12), bore(50, 12));
  const mesh = donorFrom(scope, shape);
  for (const angle of [0.5, 2])
    expect(mirrorLevel(turned(mesh, angle), turnedAxis(X, angle))).toBeCloseTo(35, 9);
  expect(
    mirrorLevel(turned(donorFrom(scope, difference(plate, bore(20, 12))), 0.5), turnedAxis(X, 0.5)),
  ).toBeNull();
});
