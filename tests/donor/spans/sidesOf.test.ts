import { afterAll, beforeAll, expect, test } from 'vitest';
import { sidesOf } from '../../../src/donor/spans/sidesOf.ts';
import { loadKernel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder } from '../../../src/solid/primitives.ts';
import { realise } from '../../../src/solid/realise.ts';
import { difference, union } from '../../../src/solid/shape.ts';
import { donorFrom, donorOf } from '../respace/donorOf.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

test('a table falls into its top and four legs', () => {
  const leg = (x: number, y: number) => block([x, y, 0], [x + 2, y + 2, 10]);
  const table = union(block([0, 0, 9], [20, 12, 12]), leg(0, 0), leg(18, 0), leg(0, 10), leg(18, 10));
  const { below, above } = sidesOf(donorFrom(scope, table), [0, 0, 1], 6);
  expect(below.map(({ volume }) => volume)).toEqual(Array(4).fill(expect.closeTo(24, 6)));
  expect(above).toHaveLength(1);
  expect(above[0]).toMatchObject({ from: [0, 0, 6], to: [20, 12, 12] });
  expect(above[0]!.volume).toBeCloseTo(20 * 12 * 3 + 4 * 4 * 3, 6);
});

test('a tube is one piece on each side, though its walls only meet through the cut', () => {
  const tube = difference(block([0, 0, 0], [6, 6, 20]), block([1, 1, -1], [5, 5, 21]));
  const { below, above } = sidesOf(donorFrom(scope, tube), [0, 0, 1], 5);
  expect(below.map(({ volume }) => volume)).toEqual([expect.closeTo(20 * 5, 6)]);
  expect(above.map(({ volume }) => volume)).toEqual([expect.closeTo(20 * 15, 6)]);
});

test('volumes and boxes agree with Manifold where the cut goes through slanted facets', () => {
  const solid = realise(
    scope,
    union(
      cylinder({ axis: 'z', diameter: 20, endDiameter: 8, from: [0, 0, 0], length: 12, sense: 'shaft' }),
      block([-2, -15, 3], [2, 15, 6]),
    ),
  );
  const mesh = donorOf(solid);
  for (const level of [1.7, 4.4, 9]) {
    const { below, above } = sidesOf(mesh, [0, 0, 1], level);
    for (const [pieces, way] of [
      [above, 1],
      [below, -1],
    ] as const) {
      const part = scope.keep(solid.trimByPlane([0, 0, way], way * level));
      expect(pieces).toHaveLength(1);
      expect(pieces[0]!.volume).toBeCloseTo(part.volume(), 4);
      const box = part.boundingBox();
      for (let k = 0; k < 3; k++) {
        expect(pieces[0]!.from[k]).toBeCloseTo(box.min[k]!, 4);
        expect(pieces[0]!.to[k]).toBeCloseTo(box.max[k]!, 4);
      }
    }
  }
});
