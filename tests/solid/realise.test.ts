import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { geometries } from '../../src/solid/jscad.ts';
import { loadKernel, type Manifold, Scope, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { up } from '../../src/solid/placement.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { stadium } from '../../src/solid/profile.ts';
import { realise, SolidProblem } from '../../src/solid/realise.ts';
import {
  difference,
  fromMesh,
  intersection,
  moved,
  placed,
  type Shape,
  union,
} from '../../src/solid/shape.ts';

let scope: Scope;
beforeAll(async () => {
  scope = new Scope(await loadKernel());
});
afterAll(() => scope.close());

const volume = (shape: Shape): number => realise(scope, shape).volume();
const leaf = (shape: Shape) => {
  if (shape.kind !== 'leaf') throw new RangeError(`leaf requires a leaf (${shape.kind})`);
  return shape.geometry;
};
function statusOf(shape: Shape): string {
  try {
    realise(scope, shape);
  } catch (error) {
    if (error instanceof SolidProblem) return error.status;
    throw error;
  }
  return 'NoError';
}

const cube = block([0, 0, 0], [2, 2, 2]);

describe('realise', () => {
  test('union and intersection share out the volume', () => {
    const other = moved(cube, [1, 0.5, 0.25]);
    const shared = 1 * 1.5 * 1.75;
    expect(volume(intersection(cube, other))).toBeCloseTo(shared, 5);
    expect(volume(union(cube, other))).toBeCloseTo(16 - shared, 5);
    expect(volume(difference(cube, other))).toBeCloseTo(8 - shared, 5);
  });

  test('a difference takes all others from the first', () => {
    const bite = block([-1, -1, -1], [0.5, 3, 0.5]);
    const other = moved(bite, [2.5, 0, 0]);
    expect(volume(difference(cube, bite, other))).toBeCloseTo(8 - 2 * 0.5 * 0.5 * 2, 5);
  });

  test('faces that touch leave nothing between and nothing behind', () => {
    const joined = realise(scope, union(cube, moved(cube, [2, 0, 0]), moved(cube, [0, 0, 2])));
    expect(joined.volume()).toBeCloseTo(24, 5);
    expect(scope.keepAll(joined.decompose())).toHaveLength(1);
    expect(statusOf(difference(cube, block([0, 0, 0], [2, 2, 2])))).toBe('Empty');
  });

  test('places what was combined', () => {
    const ell = union(block([0, 0, 0], [3, 1, 1]), block([0, 0, 0], [1, 1, 2]));
    const { min, max } = realise(scope, placed(moved(ell, [1, 0, 0]), up.x)).boundingBox();
    // x goes up, y to x, z to y.
    expect([...min, ...max]).toEqual([0, 0, 1, 1, 2, 4].map((x) => expect.closeTo(x, 6)));
  });

  test('a bore through a plate makes a hole, two bores that cross make one hole of four mouths', () => {
    const bar = block([0, -2, -2], [10, 2, 2]);
    const drill = (axis: 'y' | 'z') =>
      cylinder({ axis, diameter: 2, from: axis === 'y' ? [5, -3, 0] : [5, 0, -3], length: 6, sense: 'bore' });
    expect(realise(scope, difference(bar, drill('y'))).genus()).toBe(1);
    expect(realise(scope, difference(bar, drill('y'), drill('z'))).genus()).toBe(3);
  });

  test('the mesh carries what the solid is', () => {
    const made = realise(scope, difference(cube, moved(cube, [1, 1, 1])));
    const { positions, triangles } = meshOf(made);
    expect(positions).toHaveLength(3 * made.numVert());
    expect(triangles).toHaveLength(3 * made.numTri());
    expect(Math.max(...triangles)).toBe(made.numVert() - 1);
  });
});

describe('realise refuses', () => {
  test('an open leaf', () => {
    const open = geometries.geom3.create(geometries.geom3.toPolygons(leaf(cube)).slice(1));
    expect(statusOf({ kind: 'leaf', geometry: open })).toBe('NotManifold');
    expect(() => realise(scope, union(cube, { kind: 'leaf', geometry: open }))).toThrow(
      'solid requires a closed, oriented mesh (leaf: NotManifold)',
    );
  });

  test('a leaf that faces inward', () => {
    expect(statusOf({ kind: 'leaf', geometry: geometries.geom3.invert(leaf(cube)) })).toBe('InsideOut');
  });

  test('an empty leaf, nothing in common, nothing left', () => {
    expect(statusOf({ kind: 'leaf', geometry: geometries.geom3.create() })).toBe('Empty');
    expect(statusOf(intersection(cube, moved(cube, [3, 0, 0])))).toBe('Empty');
    expect(statusOf(difference(cube, block([-1, -1, -1], [3, 3, 3])))).toBe('Empty');
  });

  test('thinner than it can tell apart', () => {
    expect(statusOf(block([0, 0, 0], [1e-7, 1, 1]))).toBe('Empty');
  });

  test('a place that is no number', () => {
    expect(statusOf(moved(cube, [Number.NaN, 0, 0]))).toBe('NonFiniteVertex');
  });
});

describe('wasm memory', () => {
  const clip = (k: number): Shape =>
    difference(
      union(
        block([0, 0, 0], [6, 5, 4]),
        cylinder({ axis: 'z', diameter: 3, from: [3, 2.5, 4], length: 3, sense: 'shaft' }),
      ),
      prism('y', stadium(1.9, 3 + (k % 7) * 0.1, [2, 3], { sense: 'bore' }), -1, 6),
    );
  /** What the process holds outside its own heap, where wasm memory is, in MiB. It never shrinks. */
  const outside = (): number => process.memoryUsage().external / 2 ** 20;
  const rounds = 400;

  test('comes back when scopes close', () => {
    const make = (k: number) => withScope(scope.kernel, (own) => realise(own, clip(k)).volume());
    for (let k = 0; k < 20; k++) make(k);
    const before = outside();
    for (let k = 0; k < rounds; k++) make(k);
    expect(outside() - before).toBeLessThan(2);
  });

  test('comes back when realising fails', () => {
    const hopeless = (k: number) => intersection(clip(k), moved(clip(k), [50, 0, 0]));
    const make = (k: number) => withScope(scope.kernel, (own) => realise(own, hopeless(k)));
    expect(() => make(0)).toThrow(SolidProblem);
    const before = outside();
    for (let k = 0; k < rounds; k++) expect(() => make(k)).toThrow(SolidProblem);
    expect(outside() - before).toBeLessThan(2);
  });

  test('is what this measures: kept solids do add up', () => {
    const own = new Scope(scope.kernel);
    const before = outside();
    for (let k = 0; k < rounds; k++) realise(own, clip(k)).volume();
    expect(outside() - before).toBeGreaterThan(4);
    own.close();
  });

  test('a scope frees in reverse order and can be used again', () => {
    const freed: string[] = [];
    const handle = (name: string) => ({ delete: () => freed.push(name) });
    const own = new Scope(scope.kernel);
    own.keepAll([handle('a'), handle('b')]);
    own.close();
    own.keep(handle('c'));
    own.close();
    own.close();
    expect(freed).toEqual(['b', 'a', 'c']);
  });

  test('a scope closes when the work throws', () => {
    let solid: Manifold | undefined;
    const work = () =>
      withScope(scope.kernel, (own) => {
        solid = realise(own, cube);
        throw new RangeError('on purpose');
      });
    expect(work).toThrow('on purpose');
    expect(() => solid!.volume()).toThrow();
  });
});

test('a mesh from a file is a solid: a corner of 3 x 4 x 5 holds 10 mm3, and one turned inside out is refused', () => {
  const positions = Float64Array.of(0, 0, 0, 3, 0, 0, 0, 4, 0, 0, 0, 5);
  const triangles = Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3);
  const corner = fromMesh({ positions, triangles });
  expect(volume(corner)).toBeCloseTo(10, 5);
  expect(volume(difference(corner, block([-1, -1, -1], [9, 9, 1])))).toBeCloseTo(10 * 0.8 ** 3, 5);
  expect(statusOf(fromMesh({ positions, triangles: triangles.toReversed() }))).toBe('InsideOut');
  expect(statusOf(fromMesh({ positions, triangles: triangles.slice(3) }))).toBe('NotManifold');
});
