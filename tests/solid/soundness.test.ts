import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, moved, type Shape, union } from '../../src/solid/shape.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const cube = block([0, 0, 0], [2, 2, 2]);
const drill = (x: number, y: number, axis: 'x' | 'y' | 'z') =>
  cylinder({ axis, diameter: 1, from: [x, y, -1], length: 40, sense: 'bore' });
const solid = (shape: Shape) => realise(scope, shape);
const mesh = (shape: Shape): Mesh => meshOf(solid(shape));
const without = ({ positions, triangles }: Mesh, gone: number): Mesh => ({
  positions,
  triangles: triangles.filter((_, k) => Math.floor(k / 3) !== gone),
});

describe('soundnessOf', () => {
  test('cube', () => {
    expect(soundnessOf(mesh(cube))).toEqual({
      ...{ triangles: 12, bodies: 1, cavities: 0, openEdges: 0, crowdedEdges: 0, flatTriangles: 0 },
      ...{ genus: 0, volume: expect.closeTo(8, 9), finite: true },
    });
  });

  test('agrees with Manifold on genus, volume and pieces', () => {
    const bar = block([0, 0, 0], [20, 4, 4]);
    for (const shape of [
      bar,
      difference(bar, drill(3, 2, 'z')),
      difference(bar, drill(3, 2, 'z'), drill(8, 2, 'z'), drill(13, 2, 'z')),
      difference(
        bar,
        drill(10, 2, 'z'),
        cylinder({ axis: 'y', diameter: 1, from: [10, -1, 2], length: 6, sense: 'bore' }),
      ),
    ]) {
      const made = solid(shape);
      const found = soundnessOf(meshOf(made));
      expect(found.genus).toBe(made.genus());
      expect(found.volume).toBeCloseTo(made.volume(), 3);
      expect(found.bodies).toBe(scope.keepAll(made.decompose()).length);
      expect(faultsOf(found, made.genus())).toEqual([]);
    }
  });

  test('a closed hollow is a cavity, not a second body, and no hole', () => {
    const found = soundnessOf(mesh(difference(cube, block([0.5, 0.5, 0.5], [1.5, 1.5, 1.5]))));
    expect(found).toMatchObject({ bodies: 1, cavities: 1, genus: 0 });
    expect(found.volume).toBeCloseTo(7, 9);
  });

  test('two loose cubes', () => {
    const found = soundnessOf(mesh(union(cube, moved(cube, [5, 0, 0]))));
    expect(found).toMatchObject({ bodies: 2, genus: 0, volume: expect.closeTo(16, 9) });
    expect(faultsOf(found, 0)).toEqual(['it is 2 loose pieces, not one']);
  });

  test('cubes that touch along an edge share it four times', () => {
    const found = soundnessOf(mesh(union(cube, moved(cube, [2, 2, 0]))));
    expect(found.crowdedEdges).toBeGreaterThan(0);
    expect(found.genus).toBeNull();
    expect(faultsOf(found, 0)).not.toEqual([]);
  });

  test('a missing triangle leaves three open edges', () => {
    const found = soundnessOf(without(mesh(cube), 4));
    expect(found).toMatchObject({ openEdges: 3, genus: null });
    expect(faultsOf(found, 0)).toEqual(['the surface is open along 3 edges']);
  });

  test('one triangle turned over', () => {
    const { positions, triangles } = mesh(cube);
    const turned = triangles.slice();
    [turned[0], turned[1]] = [triangles[1]!, triangles[0]!];
    expect(soundnessOf({ positions, triangles: turned }).crowdedEdges).toBe(3);
  });

  test('all triangles turned over', () => {
    const { positions, triangles } = mesh(cube);
    const found = soundnessOf({ positions, triangles: triangles.toReversed() });
    expect(found).toMatchObject({ volume: expect.closeTo(-8, 9), bodies: 1, genus: 0 });
    expect(faultsOf(found, 0)).toEqual(['it encloses -8.00 mm3, so its faces look inward']);
  });

  test('vertices that 32-bit coordinates cannot tell apart make a triangle without area', () => {
    // A cube whose edge carries a third vertex 1e-7 mm from its end, 100 mm out: one 32-bit step there is 7.6e-6.
    const far = 100;
    const positions = Float32Array.from([...[far, 0, 0, far + 1e-7, 0, 0, far, 1, 0, far, 0, 1]]);
    const found = soundnessOf({
      positions,
      triangles: Uint32Array.from([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]),
    });
    expect(found.flatTriangles).toBe(2);
  });

  test('corners on a line make a triangle without area', () => {
    const positions = Float32Array.from([0, 0, 0, 1, 1, 1, 3, 3, 3]);
    expect(soundnessOf({ positions, triangles: Uint32Array.from([0, 1, 2]) }).flatTriangles).toBe(1);
  });

  test('not a number, and nothing', () => {
    const { positions, triangles } = mesh(cube);
    const broken = positions.slice();
    broken[4] = Number.NaN;
    expect(faultsOf(soundnessOf({ positions: broken, triangles }), 0)[0]).toBe(
      'a coordinate is not a number',
    );
    const nothing = soundnessOf({ positions: new Float32Array(), triangles: new Uint32Array() });
    expect(faultsOf(nothing, 0)).toEqual(['there is nothing in it']);
  });
});
