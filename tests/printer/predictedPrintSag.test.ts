// Expected volumes and heights are closed forms of the drawn blocks, worked out by hand; what is measured is the mesh.
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { predictedPrint } from '../../src/printer/predictedPrint.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, type Manifold, type ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { handlesLeft } from './handlesLeft.ts';
import { crossings, sectionAt } from './measure.ts';
import { type Behaviour, printer } from './profile.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterEach(() => scope.close());

/** Shapes here stand on the bed as drawn. */
function printOf(shape: Shape, profile: PrinterProfile): Manifold {
  const layers = layersOf(scope, realise(scope, shape), profile.firstLayer, profile.layer);
  return predictedPrint(scope, layers, profile);
}

const sagging = (levelSag: number, more: Behaviour = {}): PrinterProfile => printer({ ...more, levelSag });

/** Heights at which an upright line at (x, y) crosses the surface, from below. */
function heightsAt(print: Manifold, x: number, y: number): number[] {
  // Quarter turn about x: what was z lies along y.
  const turned = scope.keep(print.rotate(-90, 0, 0));
  return crossings(sectionAt(turned, -y), 'y', x).map(Math.abs);
}

function expectHeights(heights: readonly number[], expected: readonly number[]): void {
  expect(heights).toEqual(expected.map((height) => expect.closeTo(height, 5)));
}

/** The printed solid is one closed body with `genus` handles, and its mesh stays so in 32 bits. */
function expectSound(print: Manifold, genus: number): void {
  expect(faultsOf(soundnessOf(meshOf(print)), genus)).toEqual([]);
}

/** Block 10 x 8 x 6 mm with a slot `wide` x 2 mm through it along x, its floor 2 mm up. */
const slotted = (wide: number): Shape =>
  difference(block([0, 0, 0], [10, 8, 6]), block([-1, 4 - wide / 2, 2], [11, 4 + wide / 2, 4]));

describe('what nothing holds', () => {
  it.each([0.05, 0.12, 0.2, 0.27, 0.45])('the flat roof of a slot hangs lower: %d mm', (sag) => {
    const print = printOf(slotted(4), sagging(sag));
    expect(print.volume()).toBeCloseTo(480 - 10 * 4 * (2 - sag), 3);
    const heights = heightsAt(print, 5, 4);
    expectHeights(heights, [0, 2, 4 - sag, 6]);
    expectSound(print, 1);
  });

  it('so does one narrower than twice the overhang', () => {
    // 45 degrees and 0.2 mm: 0.2 mm reach from either wall.
    const print = printOf(slotted(0.3), sagging(0.1));
    expect(print.volume()).toBeCloseTo(480 - 10 * 0.3 * 1.9, 3);
    expectSound(print, 1);
  });

  it('the crown of a level bore hangs, its floor and its sides stay', () => {
    const bored = difference(
      block([0, 0, 0], [6, 8, 8]),
      cylinder({ axis: 'x', diameter: 4, from: [-1, 4, 4], length: 8, sense: 'bore' }),
    );
    const [plain, hung] = [printOf(bored, printer()), printOf(bored, sagging(0.15))];
    const [, floor, roof] = heightsAt(plain, 3, 4);
    expect(roof).toBeCloseTo(6, 5);
    expect(heightsAt(hung, 3, 4)[1]).toBeCloseTo(floor!, 6);
    expect(heightsAt(hung, 3, 4)[2]).toBeCloseTo(5.85, 5);
    // Below 45 degrees from the crown every layer is held: 4 + 2 cos 45 = 5.41.
    for (const z of [2.3, 3.1, 4.1, 4.9, 5.21])
      expect(scope.keep(hung.slice(z)).area()).toBeCloseTo(scope.keep(plain.slice(z)).area(), 6);
    expect(scope.keep(hung.slice(5.75)).area()).toBeGreaterThan(scope.keep(plain.slice(5.75)).area() + 0.1);
    expectSound(hung, 1);
  });

  it('an edge that stands out over nothing hangs as a roof does', () => {
    const shelf = union(block([0, 0, 0], [4, 4, 5]), block([0, 0, 3], [9, 4, 5]));
    const print = printOf(shelf, sagging(0.15));
    expect(print.volume()).toBeCloseTo(80 + 40 + 5 * 4 * 0.15, 3);
    expect(heightsAt(print, 8, 2)[0]).toBeCloseTo(2.85, 5);
    expectSound(print, 0);
  });

  it('a slope within the overhang is held, one beyond it hangs', () => {
    const flared = (run: number): Shape => {
      const outline: [number, number][] = [
        [0, 0],
        [4, 0],
        [4 + run, 4],
        [0, 4],
      ];
      // (z, x) across y: counter-clockwise there.
      return prism('y', outline.map(([x, z]): [number, number] => [z, x]).toReversed(), 0, 5);
    };
    const gain = (run: number): number =>
      printOf(flared(run), sagging(0.1)).volume() - printOf(flared(run), printer()).volume();
    // 45 degrees: a run as long as the rise.
    expect(gain(3.9)).toBeCloseTo(0, 9);
    // 20 layers; every step but that of the first, which lies on the bed, hangs 0.1 mm over 0.3 x 5 mm.
    expect(gain(6)).toBeCloseTo(19 * 0.3 * 5 * 0.1, 3);
  });

  it('fills a gap that is lower than it sinks, and leaves the floor there to hang by itself', () => {
    // A gap of 0.4 mm above a floor one layer thick, above a cellar.
    const house = difference(
      block([0, 0, 0], [10, 8, 6]),
      block([-1, 2, 1], [11, 6, 3]),
      block([-1, 2, 3.2], [11, 6, 3.6]),
    );
    const print = printOf(house, sagging(0.7));
    // The upper gap is gone; the floor itself hangs 0.7 mm into the cellar.
    expect(print.volume()).toBeCloseTo(480 - 10 * 4 * (2 - 0.7), 2);
    expect(heightsAt(print, 5, 4)).toHaveLength(4);
    expect(heightsAt(print, 5, 4)[2]).toBeCloseTo(2.3, 5);
    expectSound(print, 1);
  });

  it('past the edge of a floor it goes on down', () => {
    // Under the right half of the roof a ledge 0.2 mm below it, held by the wall.
    const ledge = difference(
      block([0, 0, 0], [10, 8, 6]),
      block([-1, 2, 1], [11, 4, 4]),
      block([-1, 4, 3.8], [11, 6, 4]),
    );
    const print = printOf(ledge, sagging(0.5));
    expect(heightsAt(print, 5, 3)[2]).toBeCloseTo(3.5, 5);
    expect(heightsAt(print, 5, 5)).toHaveLength(2);
    expectSound(print, 1);
  });

  it('comes out higher where the sag is below 0', () => {
    const print = printOf(slotted(4), sagging(-0.04));
    expect(heightsAt(print, 5, 4)[2]).toBeCloseTo(4.04, 5);
    expectSound(print, 1);
  });

  it('hangs nowhere for a printer that prints any overhang', () => {
    const level = { ...sagging(0.2), overhang: 90 };
    expect(printOf(slotted(4), level).volume()).toBeCloseTo(480 - 80, 6);
  });
});

describe('the frame of the printer', () => {
  it('leans y towards x about the middle of the part', () => {
    const print = printOf(block([2, 1, 0], [12, 7, 4]), printer({ skew: 0.01 }));
    expect(print.volume()).toBeCloseTo(240, 6);
    const { min, max } = print.boundingBox();
    expect([min[0], max[0]]).toEqual([expect.closeTo(2 - 0.03, 6), expect.closeTo(12 + 0.03, 6)]);
    expect([min[1], max[1]]).toEqual([expect.closeTo(1, 6), expect.closeTo(7, 6)]);
    expect(crossings(sectionAt(print, 2), 'x', 6)[0]).toBeCloseTo(2 + 0.02, 6);
  });

  it.each([0.08, -0.06])('lifts all above the first layer by its error: %d mm', (firstLayerError) => {
    const profile = printer({ firstLayerError, firstLayerSpread: 0.1, scale: [1, 1, 0.998] });
    const print = printOf(slotted(4), profile);
    const lifted = (z: number): number => z * 0.998 + firstLayerError;
    const heights = heightsAt(print, 5, 4);
    expectHeights(heights, [0, lifted(2), lifted(4), lifted(6)]);
    const top = lifted(0.2);
    expect(scope.keep(print.slice(top - 0.001)).area()).toBeCloseTo(10.2 * 8.2, 4);
    expect(scope.keep(print.slice(top + 0.001)).area()).toBeCloseTo(80, 4);
  });
});

/** Everything at once, on a part with a roof, a bore that lies level, an underside and a slope. */
const everything: readonly [Shape, PrinterProfile] = [
  difference(
    union(block([2, 2, 0], [8, 6, 3]), block([0, 0, 3], [10, 8, 9])),
    cylinder({ axis: 'x', diameter: 2.6, from: [-1, 4, 6], length: 12, sense: 'bore' }),
    block([6, -1, 4.4], [7, 9, 7.7]),
  ),
  sagging(0.27, {
    skew: 0.002,
    firstLayerError: 0.04,
    firstLayerSpread: 0.2,
    outerGrowth: 0.06,
    boreShrink: 0.08,
  }),
];

describe('a print with all of it', () => {
  it('is the same to the last bit when made again', () => {
    const [one, two] = [meshOf(printOf(...everything)), meshOf(printOf(...everything))];
    expect(one.triangles).toEqual(two.triangles);
    expect(one.positions).toEqual(two.positions);
  });

  it('is one sound body', () => {
    // The bore joins both ends and the slot both sides: two tunnels that cross in one chamber have genus 3.
    expectSound(printOf(...everything), 3);
  });

  it('frees every solid and section it makes', () => {
    const work = (): void => {
      printOf(...everything);
      scope.close();
    };
    const { made, left } = handlesLeft(kernel, work);
    expect(made).toBeGreaterThan(100);
    expect(left).toBe(0);
    // The count can fail.
    let forgotten: Manifold | undefined;
    const careless = (): void => {
      forgotten = kernel.Manifold.cube(1);
    };
    expect(handlesLeft(kernel, careless).left).toBe(1);
    forgotten?.delete();
  });
});
