import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { bedRelief } from '../../src/printer/bedRelief.ts';
import { predictedPrint } from '../../src/printer/predictedPrint.ts';
import { loadKernel, type Manifold, type ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { vertexAt } from '../../src/solid/mesh.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, cylinder, hull, prism } from '../../src/solid/primitives.ts';
import { stadium } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import { cross, lengthOf, subtract } from '../../src/solid/vector.ts';
import { sectionAt, widthAround } from './measure.ts';
import { printer } from './profile.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterEach(() => scope.close());

const solidOf = (shape: Shape): Manifold => realise(scope, shape);
const spreading = (firstLayerSpread: number) => printer({ firstLayerSpread, firstLayer: 0.25 });

/** Shapes with a bore, a slot with a mouth, a post, a chamfer at the bed and one that starts inside the first layer. */
const shapes: Record<string, Shape> = {
  block: block([0, 0, 0], [10, 6, 4]),
  bored: difference(
    block([0, 0, 0], [10, 8, 4]),
    cylinder({ axis: 'z', diameter: 3, from: [5, 4, -1], length: 6, sense: 'bore' }),
  ),
  mouthed: difference(
    block([-5, -4, 0], [5, 1.3, 4]),
    prism('z', stadium(2, 4, [0, 0], { sense: 'bore' }), -1, 5),
    block([-0.8, 0, -1], [0.8, 2, 5]),
  ),
  chamfered: hull(block([0.4, 0.4, 0], [7.6, 5.6, 1]), block([0, 0, 0.4], [8, 6, 3])),
  stepped: union(block([0, 0, 0], [8, 6, 0.25]), block([1, 1, 0.2], [7, 5, 3])),
  lying: difference(
    block([0, 0, 0], [8, 6, 6]),
    cylinder({ axis: 'x', diameter: 2, from: [-1, 3, 3], length: 10, sense: 'bore' }),
  ),
};

describe('bedRelief', () => {
  it('hands the solid back when nothing spreads', () => {
    const solid = solidOf(shapes.block!);
    const relief = bedRelief(scope, solid, spreading(0));
    expect(relief).toMatchObject({ relieved: false });
    expect(relief.solid).toBe(solid);
  });

  it('takes exactly the frame around the first layer from a block', () => {
    const { solid, relieved } = bedRelief(scope, solidOf(shapes.block!), spreading(0.2));
    expect(relieved).toBe(true);
    expect(solid.volume()).toBeCloseTo(240 - (60 - 9.6 * 5.6) * 0.25, 5);
  });

  it.each(Object.keys(shapes))('stays one closed body of the same genus: %s', (name) => {
    const drawn = solidOf(shapes[name]!);
    const { solid, relieved } = bedRelief(scope, drawn, spreading(0.18));
    expect(relieved).toBe(true);
    expect(solid.status()).toBe('NoError');
    expect(scope.keepAll(solid.decompose())).toHaveLength(1);
    expect(solid.genus()).toBe(drawn.genus());
    expect(solid.volume()).toBeGreaterThan(0);
    expect(solid.volume()).toBeLessThan(drawn.volume());
    const mesh = meshOf(solid);
    let smallest = Number.POSITIVE_INFINITY;
    for (let t = 0; t < mesh.triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => vertexAt(mesh, mesh.triangles[t + k]!));
      smallest = Math.min(smallest, lengthOf(cross(subtract(b!, a!), subtract(c!, a!))) / 2);
    }
    expect(smallest).toBeGreaterThan(1e-7);
  });

  it('prints flush: the first layer comes out as wide as the one above it', () => {
    const profile = printer({
      firstLayerSpread: 0.22,
      outerGrowth: 0.05,
      boreShrink: 0.06,
      firstLayer: 0.25,
    });
    for (const name of ['block', 'bored', 'mouthed']) {
      const { solid } = bedRelief(scope, solidOf(shapes[name]!), profile);
      const { min } = solid.boundingBox();
      const laid = scope.keep(solid.translate(-min[0], -min[1], 0));
      const print = predictedPrint(scope, layersOf(scope, laid, 0.25, 0.2), profile);
      const [low, high] = [sectionAt(print, 0.12), sectionAt(print, 0.4)];
      const [x, y] = [5, name === 'mouthed' ? 1 : 4];
      expect(widthAround(low, 'x', [x, y]), name).toBeCloseTo(widthAround(high, 'x', [x, y]), 3);
      expect(widthAround(low, 'x', [0.5, y]), name).toBeCloseTo(widthAround(high, 'x', [0.5, y]), 3);
    }
  });

  it('leaves alone a foot too narrow to be drawn in', () => {
    const thin = solidOf(union(block([0, 0, 0], [0.6, 6, 2]), block([0, 0, 1], [5, 6, 3])));
    const relief = bedRelief(scope, thin, spreading(0.2));
    expect(relief).toMatchObject({ relieved: false });
    expect(relief.solid).toBe(thin);
    expect(relief.reason).toMatch(/31 % of the first layer/);
  });

  it('leaves alone a first layer that would break in two', () => {
    const waist = solidOf(
      union(block([0, 0, 0], [5, 5, 3]), block([4, 2.3, 0], [9, 2.6, 3]), block([8, 0, 0], [13, 5, 3])),
    );
    const relief = bedRelief(scope, waist, spreading(0.2));
    expect(relief.relieved).toBe(false);
    expect(relief.solid).toBe(waist);
    expect(relief.reason).toMatch(/break up/);
  });
});
