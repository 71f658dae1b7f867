// The same bodies measured by two independent libraries: JSCAD's measureVolume on its own polygons, Manifold's
// volume on the solid made from them. They must agree to 1e-6, which is what 32-bit coordinates between them allow.
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { measureVolume } from '../../src/solid/jscad.ts';
import { loadKernel, Scope, withScope } from '../../src/solid/kernel.ts';
import { block, cylinder, hull, prism } from '../../src/solid/primitives.ts';
import { circle, rectangle, stadium } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';
import { moved, type Shape } from '../../src/solid/shape.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

function byJscad(shape: Shape): number {
  if (shape.kind === 'leaf') return measureVolume(shape.geometry);
  if (shape.kind === 'placed') return byJscad(shape.of);
  throw new RangeError(`byJscad requires a primitive (${shape.kind})`);
}
const byManifold = (shape: Shape): number => withScope(scope.kernel, (own) => realise(own, shape).volume());
const apart = (shape: Shape): number => Math.abs(byManifold(shape) / byJscad(shape) - 1);

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const axis = fc.constantFrom('x' as const, 'y' as const, 'z' as const);
const sense = fc.constantFrom('shaft' as const, 'bore' as const);
const surface = fc.constantFrom('interface' as const, 'plain' as const);

describe('Manifold and JSCAD agree to 1e-6 on', () => {
  test('blocks', () => {
    fc.assert(
      fc.property(size(0.5, 60), size(0.5, 60), size(0.5, 60), (a, b, c) => {
        expect(apart(block([-a / 2, -b / 2, 0], [a / 2, b / 2, c]))).toBeLessThan(1e-6);
      }),
      { seed: 11 },
    );
  });

  test('cylinders and cones', () => {
    fc.assert(
      fc.property(
        axis,
        sense,
        surface,
        size(1, 40),
        size(0.1, 1),
        size(0.5, 40),
        (a, s, f, d, taper, length) => {
          const options = {
            axis: a,
            sense: s,
            surface: f,
            from: [3, -8, 5] as [number, number, number],
            length,
          };
          expect(apart(cylinder({ ...options, diameter: d }))).toBeLessThan(1e-6);
          expect(apart(cylinder({ ...options, diameter: d, endDiameter: d * taper }))).toBeLessThan(1e-6);
        },
      ),
      { seed: 12 },
    );
  });

  test('prisms of circles, slots, rectangles and shapes that turn inward', () => {
    fc.assert(
      fc.property(axis, sense, size(1, 12), size(0, 20), size(0.5, 30), (a, s, d, longer, length) => {
        for (const contour of [
          circle(d, [0, 0], { sense: s }),
          stadium(d, d + longer, [1, -2], { sense: s }),
          rectangle([d, d + longer], [2, 1]),
          rectangle([3 * d, 2 * d]).toSpliced(2, 0, [1.5 * d, 0], [0, 0.5 * d]),
        ])
          expect(apart(prism(a, contour, -1, length))).toBeLessThan(1e-6);
      }),
      { seed: 13 },
    );
  });

  test('hulls of blocks and of moved cylinders', () => {
    fc.assert(
      fc.property(size(1, 8), size(1, 8), size(0.2, 0.9), size(0.5, 9), (a, b, taper, h) => {
        const low = block([-a, -b, 0], [a, b, 1]);
        const high = block([-a * taper, -b * taper, h + 1], [a * taper, b * taper, h + 2]);
        expect(apart(hull(low, high))).toBeLessThan(1e-6);
        const post = cylinder({ axis: 'z', diameter: a, from: [0, 0, 0], length: h, sense: 'shaft' });
        expect(apart(hull(post, moved(post, [b, 0, 0])))).toBeLessThan(1e-6);
      }),
      { seed: 14, numRuns: 40 },
    );
  });
});
