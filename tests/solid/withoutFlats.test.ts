import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadKernel, Scope } from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, moved } from '../../src/solid/shape.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { withoutFlats } from '../../src/solid/withoutFlats.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const bar = block([0, 0, 0], [20, 4, 4]);
const drill = (axis: 'y' | 'z', diameter = 1) =>
  cylinder({
    ...{ axis, diameter, length: 6, sense: 'bore' },
    from: axis === 'y' ? [10, -1, 2] : [10, 2, -1],
  });

describe('withoutFlats', () => {
  test('equal bores that cross: flat as they come, sound when tidied, nothing moved', () => {
    for (const by of [0, 7.3, 110]) {
      const made = realise(scope, moved(difference(bar, drill('y'), drill('z')), [by, by, by]));
      const { vertProperties, triVerts } = made.getMesh();
      const raw: Mesh = { positions: vertProperties, triangles: triVerts };
      expect(soundnessOf(raw).flatTriangles).toBeGreaterThan(0);
      const found = soundnessOf(meshOf(made));
      expect(faultsOf(found, 3)).toEqual([]);
      expect(found.volume / made.volume()).toBeCloseTo(1, 5);
    }
  });

  test('a vertex on the longest side goes to the neighbour across', () => {
    // A tetrahedron with an extra vertex in the middle of one edge, wired as a flat triangle on that edge.
    const positions = Float32Array.from([0, 0, 0, 4, 0, 0, 0, 4, 0, 0, 0, 4, 2, 0, 0]);
    const triangles = Uint32Array.from([0, 2, 1, 1, 2, 3, 0, 3, 2, 0, 4, 3, 4, 1, 3, 0, 1, 4]);
    const flat = soundnessOf({ positions, triangles });
    expect(flat).toMatchObject({ flatTriangles: 1, openEdges: 0, crowdedEdges: 0 });
    const tidy = soundnessOf(withoutFlats({ positions, triangles }));
    expect(tidy).toMatchObject({ flatTriangles: 0, triangles: 6, genus: 0 });
    expect(tidy.volume).toBeCloseTo(4 ** 3 / 6, 9);
  });

  test('leaves a mesh without flats alone', () => {
    const mesh = meshOf(realise(scope, difference(bar, drill('z', 1.5))));
    expect(withoutFlats(mesh)).toBe(mesh);
  });
});
