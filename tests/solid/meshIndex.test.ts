import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { MeshIndex } from '../../src/solid/meshIndex.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import type { Vec3 } from '../../src/solid/vector.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const cube = (): MeshIndex =>
  withScope(kernel, (scope) => new MeshIndex(meshOf(scope.keep(kernel.Manifold.cube([2, 2, 2], true)))));

describe('MeshIndex on a cube of side 2 about the origin', () => {
  it.each<[string, Vec3, number, Vec3]>([
    ['a face', [3, 0.2, 0.3], 2, [1, 0.2, 0.3]],
    ['an edge', [4, 5, 0.5], 5, [1, 1, 0.5]],
    ['a corner', [2, 3, 3], 3, [1, 1, 1]],
    ['a face from inside', [0.1, 0.2, 0.7], 0.3, [0.1, 0.2, 1]],
  ])('finds %s nearest', (_, p, distance, at) => {
    const found = cube().nearest(p)!;
    expect(found.distance).toBeCloseTo(distance, 9);
    found.at.forEach((value, k) => {
      expect(value).toBeCloseTo(at[k]!, 9);
    });
  });

  it('finds nothing beyond its reach', () => {
    expect(cube().nearest([3, 0, 0], 1.99)).toBeNull();
    expect(cube().nearest([3, 0, 0], 2.01)?.distance).toBeCloseTo(2, 9);
  });

  it('tells inside from outside', () => {
    expect(cube().holds([0.9, -0.9, 0.9])).toBe(true);
    expect(cube().holds([1.1, 0, 0])).toBe(false);
    expect(cube().holds([-5, -5, -5])).toBe(false);
  });

  it('meets faces along a line, the first beyond where it is asked to look', () => {
    expect(cube().hit([-3, 0.1, 0.2], [1, 0, 0])?.distance).toBeCloseTo(2, 9);
    expect(cube().hit([-3, 0.1, 0.2], [1, 0, 0], 2.5)?.distance).toBeCloseTo(4, 9);
    expect(cube().hit([-3, 0.1, 1.2], [1, 0, 0])).toBeNull();
  });

  it('gives normals outwards', () => {
    const index = cube();
    const { triangle } = index.nearest([0.2, 0.3, -4])!;
    index.normal(triangle).forEach((value, k) => {
      expect(value).toBeCloseTo([0, 0, -1][k]!, 12);
    });
  });

  it('answers for no mesh at all', () => {
    const none = new MeshIndex({ positions: new Float32Array(), triangles: new Uint32Array() });
    expect(none.nearest([0, 0, 0])).toBeNull();
    expect(none.holds([0, 0, 0])).toBe(false);
  });
});

// Manifold's own distances and rays are the other side of these.
describe('MeshIndex on a plate with a bore and a ball', () => {
  const SEED = 20_261_126;

  it('agrees with the distances and rays of another library', () => {
    let [outside, inside, hits] = [0, 0, 0];
    withScope(kernel, (scope) => {
      const { Manifold } = kernel;
      const plate = scope.keep(Manifold.cube([10, 6, 3], true));
      const bore = scope.keep(Manifold.cylinder(5, 1.5, 1.5, 48, true));
      const ball = scope.keep(scope.keep(Manifold.sphere(2, 48)).translate(5, 0, 1));
      const solid = scope.keep(scope.keep(plate.subtract(bore)).add(ball));
      const index = new MeshIndex(meshOf(solid));
      const random = xoroshiro128plus(SEED);
      const draw = (by: number): number => (2 * uniformFloat64(random) - 1) * by;
      // A probe as small as this stands for a point.
      const tiny = 1e-4;
      for (let n = 0; n < 60; n++) {
        const p: Vec3 = [draw(9), draw(5), draw(4)];
        const probe = scope.keep(scope.keep(Manifold.cube([tiny, tiny, tiny], true)).translate(p));
        const shared = scope.keep(solid.intersect(probe));
        const holds = !shared.isEmpty();
        expect(index.holds(p)).toBe(holds);
        if (holds) inside++;
        else {
          outside++;
          expect(Math.abs(index.nearest(p)!.distance - solid.minGap(probe, 20))).toBeLessThan(2 * tiny);
        }
        const far: Vec3 = [-p[0], -p[1], -p[2]];
        const length = 2 * Math.hypot(...p);
        const way = far.map((value) => (2 * value) / length) as Vec3;
        const theirs = solid.rayCast(p, far)[0];
        const ours = index.hit(p, way);
        if (theirs === undefined) expect(ours === null || ours.distance > length - 1e-6).toBe(true);
        else {
          hits++;
          expect(ours!.distance).toBeCloseTo(theirs.distance * length, 4);
        }
      }
    });
    // Else nothing was asked that matters.
    expect(outside).toBeGreaterThan(15);
    expect(inside).toBeGreaterThan(5);
    expect(hits).toBeGreaterThan(15);
  });
});
