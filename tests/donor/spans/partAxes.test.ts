import { afterAll, beforeAll, expect, test } from 'vitest';
import { partAxes, principalAxes } from '../../../src/donor/spans/partAxes.ts';
import { plainSpans } from '../../../src/donor/spans/plainSpans.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { difference, union } from '../../../src/solid/shape.ts';
import { dot, type Vec3 } from '../../../src/solid/vector.ts';
import { donorFrom } from '../respace/donorOf.ts';
import { turned, turnedAxis } from '../respace/turned.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const angleBetween = (a: Readonly<Vec3>, b: Readonly<Vec3>): number =>
  (Math.acos(Math.min(1, Math.abs(dot(a, b)))) * 180) / Math.PI;

test('a block lies along x, y and z, and its principal axes are these', () => {
  const mesh = donorFrom(scope, block([5, 6, 7], [25, 16, 12]));
  expect(partAxes(mesh).map(({ because }) => because)).toEqual(['x', 'y', 'z']);
  // The longest side has the largest spread.
  expect(principalAxes(mesh).map((axis, k) => axis[k])).toEqual(Array(3).fill(expect.closeTo(1, 6)));
});

test('a block at any slant brings three axes of its own', () => {
  for (const angle of [0.3, 0.8, 2.2]) {
    const axes = partAxes(turned(donorFrom(scope, block([5, 6, 7], [25, 16, 12])), angle)).slice(3);
    expect(axes).toHaveLength(3);
    for (const [k, own] of (
      [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const
    ).entries())
      expect(angleBetween(axes[k]!.axis, turnedAxis([...own], angle))).toBeLessThan(1e-4);
  }
});

test('a turned part has one axis of its own, across it nothing is special', () => {
  const bar = cylinder({ axis: 'z', diameter: 8, from: [0, 0, 0], length: 30, sense: 'shaft' });
  expect(principalAxes(turned(donorFrom(scope, bar), 0.7))).toHaveLength(1);
});

test('a lopsided bar: inertia only points along the walls roughly, the walls settle it', () => {
  const bar = difference(
    union(block([0, 0, 0], [60, 8, 6]), block([52, 0, 0], [60, 11, 7])),
    cylinder({ axis: 'z', diameter: 3, from: [10, 2.5, -1], length: 9, sense: 'bore' }),
  );
  const mesh = turned(donorFrom(scope, bar), 0.9);
  const own = turnedAxis([1, 0, 0], 0.9);
  expect(angleBetween(principalAxes(mesh)[0]!, own)).toBeGreaterThan(0.2);
  const found = partAxes(mesh)[3]!;
  expect(angleBetween(found.axis, own)).toBeLessThan(1e-4);
  expect(plainSpans(mesh, found.axis).map(({ length }) => length)).toContainEqual(expect.closeTo(40.5, 4));
});
