// What must hold is the brief of such a piece: ISO/ASTM 52902 (linear accuracy, bores, slots, ribs), sizes callipers
// reach, half an hour and 10 g of plastic. Sizes are measured in the mesh, not taken from what drew it.
import fc from 'fast-check';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { predictedSize } from '../../../src/printer/behaviour.ts';
import { coupon } from '../../../src/printer/coupon/coupon.ts';
import { CouponRefusal } from '../../../src/printer/coupon/couponRefusal.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { printedHeight } from '../../../src/printer/layers.ts';
import { predictedPrint } from '../../../src/printer/predictedPrint.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import { loadKernel, type Manifold, type ManifoldToplevel, Scope } from '../../../src/solid/kernel.ts';
import { layersOf } from '../../../src/solid/layers.ts';
import { meshOf } from '../../../src/solid/meshOf.ts';
import { realise } from '../../../src/solid/realise.ts';
import { faultsOf, soundnessOf } from '../../../src/solid/soundness.ts';
import { sectionAt, widthAround } from '../measure.ts';
import { printer } from '../profile.ts';
import { approaches, callipersAt } from './callipers.ts';
import { readFeature } from './readFeature.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterEach(() => scope.close());

const made = (profile: PrinterProfile): Manifold => realise(scope, coupon(profile).shape);

/** 11 bores and slots through the plate, and the level bore. */
const HOLES = 12;
/** PLA, g/cm3: handbook figure, as in src/standards/materials.ts. */
const DENSITY = 1.24;

const profiles: readonly (readonly [string, PrinterProfile])[] = [
  ['usual', defaultPrinter],
  ['fine', { ...defaultPrinter, layer: 0.08, firstLayer: 0.1, lineWidth: 0.25 }],
  ['coarse', { ...defaultPrinter, layer: 0.4, firstLayer: 0.4, lineWidth: 0.9 }],
  ['uneven', { ...defaultPrinter, layer: 0.17, firstLayer: 0.28, lineWidth: 0.61 }],
];

describe.each(profiles)('coupon, %s', (_, profile) => {
  it('is one sound solid on the bed, under 10 g, with a hole for each bore and slot', () => {
    const solid = made(profile);
    const found = soundnessOf(meshOf(solid));
    expect(faultsOf(found, HOLES)).toEqual([]);
    expect(found).toMatchObject({ bodies: 1, cavities: 0 });
    expect((found.volume / 1000) * DENSITY).toBeLessThan(10);
    const { min, max } = solid.boundingBox();
    for (const k of [0, 1, 2] as const) expect(min[k]).toBeCloseTo(0, 6);
    expect(max[0]).toBeCloseTo(76, 5);
    expect(max[1]).toBeCloseTo(76, 5);
  });

  it('has every feature at the size it states', () => {
    const solid = made(profile);
    const { features } = coupon(profile);
    for (const feature of features) {
      const read = readFeature(solid, feature);
      // 32-bit coordinates of 76 mm, and the tops of facets on round things, which touch the circle.
      expect(Math.abs(read - feature.nominal), `${feature.id} reads ${read}`).toBeLessThan(2e-4);
    }
  });

  it('has its heights on the boundaries of layers', () => {
    for (const { callout, measurand } of coupon(profile).features) {
      if (measurand.direction[2] !== 1) continue;
      for (const [, , z] of callout)
        expect(printedHeight(z, { ...profile, scale: printer().scale })).toBeCloseTo(z, 9);
    }
  });

  it('has ribs of whole lines', () => {
    const ribs = coupon(profile).features.filter(({ kind }) => kind === 'rib');
    expect(ribs).toHaveLength(4);
    for (const { nominal } of ribs) {
      const lines = nominal / profile.lineWidth;
      expect(lines).toBeCloseTo(Math.round(lines), 4);
      expect(nominal).toBeGreaterThanOrEqual(1.2 - 1e-9);
    }
  });

  it('keeps its first layer clear of the walls above, but for the tab', () => {
    const solid = made(profile);
    const first = scope.keep(solid.slice(profile.firstLayer / 2));
    // Spread by 0.3 mm a side, the most a first layer is expected to do (common practice, no source).
    const spread = scope.keep(first.offset(0.3, 'Miter'));
    const above = scope.keep(solid.slice(2));
    const proud = scope.keep(spread.subtract(above)).decompose();
    const boxes = scope
      .keepAll(proud)
      .filter((part) => part.area() > 1e-4)
      .map((part) => part.bounds());
    expect(boxes).toHaveLength(2);
    for (const { min, max } of boxes) {
      expect(min[0]).toBeGreaterThan(30.5);
      expect(max[0]).toBeLessThan(36.3);
      expect(min[1] < 1.01 || max[1] > 10.99).toBe(true);
    }
  });

  it('has no wall in its first layer too thin to be laid down', () => {
    const first = scope.keep(made(profile).slice(profile.firstLayer / 2));
    // Drawn in by 0.4 mm, walls thinner than 0.8 mm would part and let two holes run together.
    const drawnIn = scope.keep(first.offset(-0.4, 'Miter'));
    expect(drawnIn.numContour()).toBe(HOLES);
    expect(scope.keepAll(drawnIn.decompose())).toHaveLength(1);
  });

  it('lets callipers reach every feature from some side without touching anything else', () => {
    const solid = made(profile);
    for (const feature of coupon(profile).features) {
      const clashes = approaches.flatMap((approach) => {
        const callipers = callipersAt(scope, feature, approach);
        return callipers === null ? [] : [scope.keep(callipers.intersect(solid)).volume()];
      });
      expect(Math.min(...clashes), feature.id).toBeLessThan(1e-6);
    }
  });

  it('gives inside jaws straight walls 2.5 mm deep', () => {
    const solid = made(profile);
    for (const feature of coupon(profile).features) {
      if (feature.kind !== 'bore' || feature.axis !== 'z') continue;
      const { at, nominal } = feature;
      for (const below of [0.05, 1.2, 2.45]) {
        const plate = coupon(profile).features.find(({ id }) => id === 'height.plate')!.nominal;
        const contours = sectionAt(solid, plate - below);
        expect(widthAround(contours, 'x', [at[0], at[1]]), `${feature.id} ${below} mm down`).toBeCloseTo(
          nominal,
          3,
        );
      }
    }
  });

  it('has digits 4 mm tall with strokes of a line at least, all of them whole', () => {
    const solid = made(profile);
    const { features } = coupon(profile);
    const plate = features.find(({ id }) => id === 'height.plate')!.nominal;
    const islands = scope.keepAll(scope.keep(solid.slice(plate + 0.1)).decompose());
    const standing = 7;
    const tall = islands.map((island) => island.bounds());
    // 25 numbers lie on the plate: 1 to 9, and sixteen of two digits.
    expect(islands).toHaveLength(standing + 9 + 2 * 16);
    const digits = islands.filter((_, k) => Math.abs(tall[k]!.max[1] - tall[k]!.min[1] - 4) < 1e-4);
    expect(digits.length).toBeGreaterThanOrEqual(9 + 2 * 16);
    for (const island of digits) {
      // What is thinner than a line vanishes when drawn in by half of one.
      const drawnIn = scope.keep(island.offset(-(profile.lineWidth / 2 - 1e-3), 'Miter'));
      expect(drawnIn.isEmpty()).toBe(false);
    }
  });
});

describe('coupon', () => {
  it('has what calibration asks for', () => {
    const { features } = coupon(defaultPrinter);
    const of = (test: (feature: (typeof features)[number]) => boolean) => features.filter(test);
    const sizes = (list: typeof features) => list.map(({ nominal }) => nominal).sort((a, b) => a - b);
    const bores = of(({ kind, axis }) => kind === 'bore' && axis === 'z');
    expect(sizes(bores)).toEqual([1.5, 2, 2.5, 3, 4, 6, 12]);
    for (const bore of bores) expect(bore.reading).toMatchObject({ jaw: 'inside', round: true });
    for (const axis of ['x', 'y'] as const) {
      expect(new Set(sizes(of((f) => f.kind === 'slot' && f.axis === axis))).size).toBe(2);
      expect(new Set(sizes(of((f) => f.kind === 'rib' && f.axis === axis))).size).toBe(2);
      expect(new Set(sizes(of((f) => f.kind === 'post' && f.axis === axis))).size).toBeGreaterThanOrEqual(3);
      const alike = of((f) => f.kind === 'step' && f.axis === axis);
      expect(alike).toHaveLength(1);
      expect(alike[0]!.measurand.faces).toEqual({ outer: 0, inner: 0 });
      expect(alike[0]!.nominal).toBeGreaterThan(50);
    }
    expect(of(({ kind, axis }) => kind === 'bore' && axis === 'y')).toMatchObject([
      { measurand: { kind: 'step', roof: true } },
    ]);
    expect(of(({ measurand }) => measurand.atBed === true)).toHaveLength(1);
    const steps = of(({ kind, axis }) => kind === 'step' && axis === 'z');
    expect(new Set(sizes(steps)).size).toBeGreaterThanOrEqual(3);
    expect(steps.map(({ measurand }) => measurand.lowerFace! > 0)).toContain(true);
    // The two diagonals lean either way, so that skew lengthens one and shortens the other.
    const lean = of(({ axis }) => Array.isArray(axis)).map(
      ({
        measurand: {
          direction: [x, y],
        },
      }) => Math.sign(x * y),
    );
    expect(lean.sort()).toEqual([-1, 1]);
  });

  it('numbers every feature once, in the order of measuring', () => {
    const { features } = coupon(defaultPrinter);
    expect(features.map(({ number }) => number)).toEqual(features.map((_, k) => k + 1));
    expect(new Set(features.map(({ id }) => id)).size).toBe(features.length);
    for (const { id, reading, tip, times, nominal, callout } of features) {
      expect(id).toMatch(/^[a-z0-9]+(\.[a-z0-9]+)*$/);
      expect(reading.id).toBe(id);
      expect(tip).not.toMatch(/\.$/);
      expect(times).toBeGreaterThanOrEqual(1);
      expect(reading.from).toBeLessThan(nominal);
      expect(reading.to).toBeGreaterThan(nominal);
      const [a, b] = callout;
      expect(Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])).toBeCloseTo(nominal, 6);
    }
    // Jaws are not changed more often than needed.
    const jaws = features.map(({ reading: { jaw } }) => jaw);
    expect(jaws.filter((jaw, k) => jaw !== jaws[k - 1])).toEqual(['inside', 'outside', 'depth']);
  });

  it('holds over the range of printers', () => {
    let runs = 0;
    fc.assert(
      fc.property(
        fc.double({ min: 0.08, max: 0.4, noNaN: true }),
        fc.double({ min: 0.1, max: 0.4, noNaN: true }),
        fc.double({ min: 0.25, max: 0.9, noNaN: true }),
        (layer, firstLayer, lineWidth) => {
          const profile = { ...defaultPrinter, layer, firstLayer, lineWidth };
          const solid = made(profile);
          const found = soundnessOf(meshOf(solid));
          expect(faultsOf(found, HOLES)).toEqual([]);
          expect((found.volume / 1000) * DENSITY).toBeLessThan(10);
          for (const feature of coupon(profile).features)
            expect(Math.abs(readFeature(solid, feature) - feature.nominal), feature.id).toBeLessThan(2e-4);
          scope.close();
          runs++;
        },
      ),
      { seed: 20241125, numRuns: 12 },
    );
    expect(runs).toBe(12);
  });

  it('hangs on nothing that a calibration changes', () => {
    const learnt = printer({
      scale: [0.99, 1.01, 1],
      outerGrowth: 0.2,
      boreShrink: 0.2,
      firstLayerSpread: 0.4,
      skew: 0.01,
    });
    const [one, two] = [printer(), learnt].map((profile) => {
      const { shape, features } = coupon(profile);
      const mesh = meshOf(realise(scope, shape));
      return {
        features: JSON.stringify(features),
        positions: [...mesh.positions],
        triangles: [...mesh.triangles],
      };
    });
    expect(two).toEqual(one);
  });

  it('prints as the formula says, measured in the predicted print', () => {
    const profiles = [
      printer({ scale: [0.996, 1.001, 0.998], outerGrowth: 0.08, boreShrink: 0.06, boreCurvature: 0.15 }),
      printer({
        outerGrowth: -0.03,
        boreShrink: 0.12,
        boreCurvature: 0.05,
        firstLayerSpread: 0.22,
        skew: 0.002,
      }),
      printer({ scale: [1, 1, 1], firstLayerError: 0.04, levelSag: 0.2, layer: 0.25, firstLayer: 0.3 }),
    ];
    for (const profile of profiles) {
      const { features } = coupon(profile);
      const layers = layersOf(scope, made(profile), profile.firstLayer, profile.layer);
      const print = predictedPrint(scope, layers, profile);
      for (const feature of features) {
        const expected = predictedSize(feature.nominal, feature.measurand, profile).value;
        const read = readFeature(print, feature);
        expect(Math.abs(read - expected), `${feature.id} reads ${read}, expected ${expected}`).toBeLessThan(
          0.02,
        );
      }
    }
  });

  it.each([
    ['bed.x', { bed: { x: 75.9, y: 200, z: 200 } }, 75.9, '76 mm'],
    ['bed.y', { bed: { x: 200, y: 40, z: 200 } }, 40, '76 mm'],
    ['bed.z', { bed: { x: 200, y: 200, z: 14.7 } }, 14.7, '14.8 mm'],
    ['lineWidth', { lineWidth: 1.1 }, 1.1, 'at most 1 mm'],
    ['layer', { layer: 0.6 }, 0.6, 'at most 0.5 mm'],
    ['firstLayer', { firstLayer: 0.7 }, 0.7, 'at most 0.6 mm'],
  ])('refuses %s out of range, with both numbers', (field, change, given, allowed) => {
    const refused = (() => {
      try {
        return coupon({ ...defaultPrinter, ...change });
      } catch (error) {
        return error;
      }
    })();
    expect(refused).toBeInstanceOf(CouponRefusal);
    expect(refused).toMatchObject({ field, given });
    expect((refused as CouponRefusal).allowed).toContain(allowed);
  });

  it('fits a bed of just its size', () => {
    expect(coupon({ ...defaultPrinter, bed: { x: 76, y: 76, z: 14.8 } }).features).toHaveLength(31);
  });
});

describe('bores', () => {
  it('stand outside of their circle by no more than the chord error', () => {
    const solid = made(defaultPrinter);
    const contours = sectionAt(solid, 2);
    for (const { nominal, at, kind, axis } of coupon(defaultPrinter).features) {
      if (kind !== 'bore' || axis !== 'z') continue;
      const around = contours.filter((contour) =>
        contour.every(([x, y]) => Math.hypot(x - at[0], y - at[1]) < nominal / 2 + 0.1),
      );
      expect(around).toHaveLength(1);
      const wall = around[0]!;
      for (const [k, p] of wall.entries()) {
        const q = wall[(k + 1) % wall.length]!;
        // Flats lie on the circle, corners up to 0.005 mm outside it (what interfaces are held to).
        expect(Math.hypot((p[0] + q[0]) / 2 - at[0], (p[1] + q[1]) / 2 - at[1])).toBeGreaterThan(
          nominal / 2 - 1e-4,
        );
        expect(Math.hypot(p[0] - at[0], p[1] - at[1])).toBeLessThan(nominal / 2 + 0.0056);
      }
    }
  });
});
