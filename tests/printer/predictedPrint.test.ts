// Expected sizes are the closed forms of the printer's behaviour as the profile states them
// (printed = drawn * scale + 2 * outerGrowth; printed = drawn * scale - 2 * boreShrink - boreCurvature / D),
// worked out here by hand from circle and stadium; what is measured is the mesh.
import fc from 'fast-check';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { outlinesOf } from '../../src/printer/innerRegions.ts';
import { predictedPrint } from '../../src/printer/predictedPrint.ts';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, type Manifold, type ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';
import { layersOf } from '../../src/solid/layers.ts';
import { block, cylinder, prism } from '../../src/solid/primitives.ts';
import { stadium } from '../../src/solid/profile.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, type Shape, union } from '../../src/solid/shape.ts';
import { sectionAt, widthAround } from './measure.ts';
import { printer } from './profile.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterEach(() => scope.close());

function onBed(shape: Shape): Manifold {
  const solid = realise(scope, shape);
  const { min } = solid.boundingBox();
  return scope.keep(solid.translate(-min[0], -min[1], -min[2]));
}

function printOf(solid: Manifold, profile: PrinterProfile): Manifold {
  return predictedPrint(scope, layersOf(scope, solid, profile.firstLayer, profile.layer), profile);
}

/** Largest difference between plan and mesh, mm; the chord error of the facets is half of it. */
const WITHIN = 0.01;
const HEIGHT = 2;
const PLAIN = {
  scale: [0.996, 1.002, 0.997],
  outerGrowth: 0.06,
  boreShrink: 0.07,
  boreCurvature: 0.2,
} as const;

interface Mouthed {
  readonly width: number;
  readonly run: number;
  /** Width of the mouth over that of the slot; 0 is closed. */
  readonly mouth: number;
  readonly throat: number;
  readonly flare: boolean;
}

/** Block 14 x 10 mm with a slot in it, its mouth towards +y, on the bed; the slot's middle is at `middle`. */
function slotted({ width, run, mouth, throat: asked, flare }: Mouthed): {
  solid: Manifold;
  middle: [number, number];
} {
  const half = (mouth * width) / 2;
  const straight = Math.max(0, half - run / 2);
  // Lips on the flat of a slot need a throat: without one they have no thickness.
  const throat = straight === 0 ? Math.max(asked, 0.2) : asked;
  const lip = Math.sqrt((width / 2) ** 2 - straight ** 2);
  const top = lip + throat + (flare ? 0.6 : 0);
  const cuts = [prism('z', stadium(width, width + run, [0, 0], { sense: 'bore' }), -1, HEIGHT + 1)];
  if (mouth > 0) cuts.push(block([-half, 0, -1], [half, top + 1, HEIGHT + 1]));
  if (mouth > 0 && flare) {
    const [from, to] = [lip + throat, lip + throat + 1];
    const wedge: [number, number][] = [
      [-half, from],
      [half, from],
      [half + 1, to],
      [-half - 1, to],
    ];
    cuts.push(prism('z', wedge, -1, HEIGHT + 1));
  }
  const body = block([-7, -width / 2 - 4, 0], [7, mouth === 0 ? width / 2 + 4 : top, HEIGHT]);
  return { solid: onBed(difference(body, ...cuts)), middle: [7, width / 2 + 4] };
}

/** 4 A / P of a stadium, by its closed form. */
const stadiumDiameter = (width: number, run: number): number =>
  (4 * (width * run + (Math.PI * width ** 2) / 4)) / (2 * run + Math.PI * width);

/** Where the printer puts a drawn point: shrink acts about the middle of the part's box. */
function shifted(
  solid: Manifold,
  [x, y]: readonly [number, number],
  { scale }: PrinterProfile,
): [number, number] {
  const { min, max } = solid.boundingBox();
  const [cx, cy] = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
  return [cx + scale.x.value * (x - cx), cy + scale.y.value * (y - cy)];
}

describe('predictedPrint', () => {
  it('gives back a block printed true', () => {
    const solid = onBed(block([0, 0, 0], [10, 6, 4]));
    const print = printOf(solid, printer());
    expect(print.volume()).toBeCloseTo(240, 9);
    expect(print.numTri()).toBe(12);
    expect(print.status()).toBe('NoError');
  });

  it('grows a block by the closed form and lays it about its middle', () => {
    const solid = onBed(block([3, 2, 0], [13, 8, 4]));
    const print = printOf(solid, printer({ ...PLAIN, firstLayerSpread: 0.15 }));
    const [x, y, z] = [10 * 0.996 + 0.12, 6 * 1.002 + 0.12, 4 * 0.997];
    const spread = 0.2 * 0.997;
    expect(print.volume()).toBeCloseTo(x * y * (z - spread) + (x + 0.3) * (y + 0.3) * spread, 4);
    const { min, max } = print.boundingBox();
    expect((min[0] + max[0]) / 2).toBeCloseTo(5, 9);
    expect((min[1] + max[1]) / 2).toBeCloseTo(3, 9);
    expect(min[2]).toBe(0);
    expect(max[2]).toBeCloseTo(z, 5);
  });

  it('takes heights in whole layers', () => {
    const profile = printer({ firstLayer: 0.3, layer: 0.2 });
    // Mid-heights at 0.15, 0.4, 0.6 ... 1.0: the layer to 1.1 has its middle at 1.0.
    expect(printOf(onBed(block([0, 0, 0], [4, 4, 1.01])), profile).boundingBox().max[2]).toBeCloseTo(1.1, 5);
    expect(printOf(onBed(block([0, 0, 0], [4, 4, 0.99])), profile).boundingBox().max[2]).toBeCloseTo(0.9, 5);
  });

  it('spreads the first layer into bores as well, and only the first', () => {
    const profile = printer({ ...PLAIN, scale: [1, 1, 1], firstLayerSpread: 0.12 });
    const { solid, middle } = slotted({ width: 4, run: 0, mouth: 0, throat: 0, flare: false });
    const print = printOf(solid, profile);
    const bore = 4 - 2 * 0.07 - 0.2 / 4;
    expect(widthAround(sectionAt(print, 0.1), 'x', middle)).toBeCloseTo(bore - 0.24, 3);
    expect(widthAround(sectionAt(print, 0.3), 'x', middle)).toBeCloseTo(bore, 3);
  });

  it('prints one body of the genus drawn, without slivers', () => {
    for (const mouth of [0, 0.8]) {
      const { solid } = slotted({ width: 2, run: 2, mouth, throat: 0.2, flare: mouth > 0 });
      const print = printOf(solid, printer({ ...PLAIN, firstLayerSpread: 0.1 }));
      expect(print.status()).toBe('NoError');
      expect(print.genus()).toBe(mouth === 0 ? 1 : 0);
      expect(scope.keepAll(print.decompose())).toHaveLength(1);
    }
  });

  const cases = [0, 0.6, 0.8, 0.98].flatMap((mouth) =>
    [0, 1, 3].flatMap((run) =>
      [0, 0.3].flatMap((throat) => [false, true].map((flare) => ({ width: 2, run, mouth, throat, flare }))),
    ),
  );
  it.each(cases)(
    'draws in the walls by the bore law: mouth $mouth, run $run, throat $throat, flare $flare',
    (drawn) => {
      const profile = printer(PLAIN);
      const { solid, middle } = slotted(drawn);
      const at = shifted(solid, middle, profile);
      const section = sectionAt(printOf(solid, profile), 1.1);
      const loss = 2 * 0.07 + 0.2 / stadiumDiameter(drawn.width, drawn.run);
      // Along x the slot is width + run long; where the mouth is shut, across it as well.
      expect(
        Math.abs(widthAround(section, 'x', at) - ((drawn.width + drawn.run) * 0.996 - loss)),
      ).toBeLessThan(WITHIN);
      if (drawn.mouth === 0)
        expect(Math.abs(widthAround(section, 'y', at) - (drawn.width * 1.002 - loss))).toBeLessThan(WITHIN);
      if (drawn.mouth > 0 && drawn.mouth * drawn.width + 0.6 < drawn.run) {
        // Beside the mouth the slot has both its long walls.
        const beside: [number, number] = [at[0] + (drawn.mouth * drawn.width) / 2 + 0.2, at[1]];
        expect(Math.abs(widthAround(section, 'y', beside) - (drawn.width * 1.002 - loss))).toBeLessThan(
          WITHIN,
        );
      }
      if (drawn.mouth > 0 && drawn.throat > 0) {
        const half = (drawn.mouth * drawn.width) / 2;
        const lip = Math.sqrt((drawn.width / 2) ** 2 - Math.max(0, half - drawn.run / 2) ** 2);
        const throat: [number, number] = shifted(
          solid,
          [middle[0], middle[1] + lip + drawn.throat / 2],
          profile,
        );
        expect(Math.abs(widthAround(section, 'x', throat) - (2 * half * 0.996 - loss))).toBeLessThan(WITHIN);
      }
    },
  );

  it('shrinks and grows a ring by its closed form', () => {
    const profile = printer(PLAIN);
    const ring = onBed(
      difference(
        cylinder({ axis: 'z', diameter: 9, from: [0, 0, 0], length: HEIGHT, sense: 'shaft' }),
        cylinder({ axis: 'z', diameter: 5, from: [0, 0, -1], length: HEIGHT + 2, sense: 'bore' }),
      ),
    );
    const print = printOf(ring, profile);
    // Ring between two circles scaled to ellipses, area pi/4 (a b - c d); facets stay within their chord error.
    const [out, hole] = [(s: number) => 9 * s + 0.12, (s: number) => 5 * s - 0.14 - 0.2 / 5];
    const expected = (Math.PI / 4) * (out(0.996) * out(1.002) - hole(0.996) * hole(1.002)) * HEIGHT * 0.997;
    expect(Math.abs(print.volume() / expected - 1)).toBeLessThan(4e-3);
  });

  it('takes no step, corner or shallow recess for a pocket', () => {
    const shapes: Record<string, Shape> = {
      'post on a body': union(block([-6, 0, 0], [6, 5, 2]), block([-1, 5, 0], [1, 9, 2])),
      'post on a narrow body': union(block([-2, 0, 0], [2, 5, 2]), block([-1, 5, 0], [1, 9, 2])),
      'shallow recess': difference(block([-6, 0, 0], [6, 5, 2]), block([-2, 4.5, -1], [2, 6, 3])),
      'wide slot': difference(block([-9, 0, 0], [9, 5, 2]), block([-4, 1, -1], [4, 6, 3])),
    };
    for (const [name, shape] of Object.entries(shapes)) {
      const [layer] = layersOf(scope, onBed(shape), 0.2, 0.2);
      const outlines = outlinesOf(scope, layer!.contours);
      expect(
        outlines.flatMap(({ inner }) => inner),
        name,
      ).toEqual([]);
    }
    const slot = difference(block([-6, 0, 0], [6, 5, 2]), block([-1, 2, -1], [1, 6, 3]));
    const [layer] = layersOf(scope, onBed(slot), 0.2, 0.2);
    expect(outlinesOf(scope, layer!.contours).flatMap(({ inner }) => inner)).toMatchObject([{ open: true }]);
  });

  it('closes a pocket with parallel walls by a straight mouth, however it is turned', () => {
    const pocket = difference(block([-6, 0, 0], [6, 5, 2]), block([-1, 2, -1], [1, 6, 3]));
    const solid = realise(scope, pocket);
    for (let degrees = 0; degrees < 180; degrees += 7) {
      const [layer] = layersOf(scope, scope.keep(solid.rotate(0, 0, degrees)), 0.2, 0.2);
      const [region] = outlinesOf(scope, layer!.contours).flatMap(({ inner }) => inner);
      // 4 A / P of a rectangle 2 x 3 mm.
      expect(region!.diameter, `${degrees} degrees`).toBeCloseTo((4 * 6) / 10, 3);
    }
  });

  it('leaves posts side by side to the outer law', () => {
    const posts = union(
      block([0, 0, 0], [12, 4, 1]),
      block([0, 0, 1], [3, 4, 4]),
      block([6, 0, 1], [9, 4, 4]),
    );
    const section = sectionAt(printOf(onBed(posts), printer(PLAIN)), 2.1);
    const walls = [
      widthAround(section, 'x', [1.5, 2]),
      widthAround(section, 'x', [4.5, 2]),
      widthAround(section, 'x', [7.5, 2]),
    ];
    const expected = [3 * 0.996 + 0.12, 3 * 0.996 - 0.12, 3 * 0.996 + 0.12];
    for (const [k, wall] of walls.entries()) expect(wall).toBeCloseTo(expected[k]!, 4);
  });

  it('keeps an island inside a ring', () => {
    const island = union(
      block([0, 0, 0], [12, 12, 1]),
      difference(block([0, 0, 1], [12, 12, 3]), block([2, 2, 0.5], [10, 10, 4])),
      block([4, 4, 1], [8, 8, 3]),
    );
    const section = sectionAt(printOf(onBed(island), printer({ ...PLAIN, scale: [1, 1, 1] })), 2.1);
    const hole = 8 - 0.14 - 0.2 / 8;
    expect(widthAround(section, 'x', [6, 6])).toBeCloseTo(4 + 0.12, 4);
    expect(widthAround(section, 'x', [3, 6])).toBeCloseTo((hole - 4.12) / 2, 4);
  });

  it('holds over the range of printers and sizes', () => {
    let closed = 0;
    let open = 0;
    fc.assert(
      fc.property(
        fc.record({
          sx: fc.double({ min: 0.994, max: 1.002, noNaN: true }),
          sy: fc.double({ min: 0.994, max: 1.002, noNaN: true }),
          outerGrowth: fc.double({ min: -0.05, max: 0.15, noNaN: true }),
          boreShrink: fc.double({ min: -0.02, max: 0.15, noNaN: true }),
          boreCurvature: fc.double({ min: 0, max: 0.25, noNaN: true }),
          firstLayerSpread: fc.double({ min: 0, max: 0.3, noNaN: true }),
          width: fc.double({ min: 1.5, max: 4.5, noNaN: true }),
          run: fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 3, noNaN: true })),
          mouth: fc.oneof(fc.constant(0), fc.double({ min: 0.6, max: 0.98, noNaN: true })),
          throat: fc.double({ min: 0, max: 0.5, noNaN: true }),
          flare: fc.boolean(),
        }),
        (c) => {
          const profile = printer({ ...c, scale: [c.sx, c.sy, 1] });
          const { solid, middle } = slotted(c);
          const print = printOf(solid, profile);
          const section = sectionAt(print, 1.1);
          const at = shifted(solid, middle, profile);
          const loss = 2 * c.boreShrink + c.boreCurvature / stadiumDiameter(c.width, c.run);
          const slot = widthAround(section, 'x', at);
          expect(Math.abs(slot - ((c.width + c.run) * c.sx - loss))).toBeLessThan(WITHIN);
          // The body below the slot is a post as wide as the block.
          expect(
            Math.abs(widthAround(section, 'x', [at[0], 1]) - (14 * c.sx + 2 * c.outerGrowth)),
          ).toBeLessThan(1e-3);
          expect(print.status()).toBe('NoError');
          expect(print.genus()).toBe(c.mouth === 0 ? 1 : 0);
          if (c.mouth === 0) closed++;
          else open++;
          scope.close();
        },
      ),
      { seed: 1863, numRuns: 120 },
    );
    expect(Math.min(closed, open)).toBeGreaterThan(20);
  });
});
