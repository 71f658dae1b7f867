import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { lowest } from '../../src/solid/lowest.ts';
import { block, cylinder, hull } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import {
  difference,
  fromMesh,
  intersection,
  moved,
  placed,
  type Shape,
  union,
} from '../../src/solid/shape.ts';
import type { Placement, Vec3 } from '../../src/solid/vector.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const post = cylinder({ axis: 'z', diameter: 3, from: [0, 0, 0], length: 5, sense: 'shaft' });
const foot = block([-4, -1, -2], [4, 1, 0.5]);
const tetrahedron = fromMesh({
  positions: Float64Array.of(0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0, 5),
  triangles: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
});
const leaning: Placement = { rotation: [0.6, 0, 0.8, 0, 1, 0, -0.8, 0, 0.6], translation: [3, 1, -7] };

const shapes: readonly (readonly [string, Shape])[] = [
  ['a block', foot],
  ['a post on a foot', union(post, foot)],
  ['a foot with a hole', difference(foot, moved(post, [0, 0, -3]))],
  ['a post with a flat end', intersection(post, block([-9, -9, 1], [9, 9, 4]))],
  ['a hull', hull(post, foot)],
  ['a tetrahedron from a file', moved(tetrahedron, [2, 1, 4])],
  ['moved', moved(union(post, foot), [0, 0, 11])],
  ['leaning', placed(union(post, foot), leaning)],
  ['leaning twice', placed(placed(union(post, moved(foot, [1, 0, 0])), leaning), leaning)],
];

// Manifold's own box of the solid, turned so that `up` is z, is the other route.
test.each(shapes)('%s: as low as its solid', (_, shape) => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
      (turn, z) => {
        const level = Math.sqrt(1 - z * z);
        const up: Vec3 = [level * Math.cos(turn), level * Math.sin(turn), z];
        withScope(kernel, (scope) => {
          const { vertProperties } = realise(scope, shape).getMesh();
          let least = Number.POSITIVE_INFINITY;
          for (let k = 0; k < vertProperties.length; k += 3)
            least = Math.min(
              least,
              [0, 1, 2].reduce((sum, i) => sum + vertProperties[k + i]! * up[i]!, 0),
            );
          // Cuts and intersections may hide a lower point of what is cut, seen from a slant.
          if (shape.kind === 'difference' || shape.kind === 'intersection')
            expect(lowest(shape, up)).toBeLessThan(least + 1e-5);
          else expect(lowest(shape, up)).toBeCloseTo(least, 5);
        });
      },
    ),
    { seed: 20261125, numRuns: 20 },
  );
});

test.each(shapes)('%s: exact along z', (_, shape) => {
  withScope(kernel, (scope) => {
    expect(lowest(shape, [0, 0, 1])).toBeCloseTo(realise(scope, shape).boundingBox().min[2], 5);
  });
});
