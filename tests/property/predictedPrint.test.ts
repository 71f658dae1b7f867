// The plan's formula and the predicted print are two routes to one size. Here the print is measured back: sections of the
// mesh, and nothing that the formula knows. The printers are those the issue of a calibration states as its range (common
// practice, no source); chords of a circle are Euclid's.
import fc from 'fast-check';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { PrinterProfile } from '../../src/printer/types.ts';
import { loadKernel, type ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { after, up } from '../../src/solid/placement.ts';
import { faultsOf, soundnessOf } from '../../src/solid/soundness.ts';
import { calliperSize } from '../printer/calliperSize.ts';
import { type FeatureSpec, FORMS, isHollow, isRound } from '../printer/features.ts';
import { type LaidFeature, laidFeature } from '../printer/laidFeature.ts';
import { printer } from '../printer/profile.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterEach(() => scope.close());

/** How far a size measured on the predicted print may lie from the plan, mm. */
const WITHIN = 0.02;
/** What facets add to or take from a circle at most on an interface, mm a side. */
const CHORD_ERROR = 0.005;

/** Evenly spread, where fast-check's doubles crowd near the ends and at 0. */
const between = (min: number, max: number) =>
  fc
    .integer({ min: 0, max: 1_000_002 })
    .map((k) => min + ((max - min) * ((k * 7919) % 1_000_003)) / 1_000_002);

const printers: fc.Arbitrary<PrinterProfile> = fc
  .record({
    scale: fc.tuple(between(0.994, 1.002), between(0.994, 1.002), between(0.994, 1.002)),
    outerGrowth: between(-0.05, 0.15),
    boreShrink: between(0.02, 0.15),
    boreCurvature: between(0, 0.25),
    firstLayerSpread: between(0, 0.3),
    firstLayerError: between(-0.05, 0.1),
    levelSag: fc.oneof({ arbitrary: between(0, 0.3), weight: 5 }, fc.constant(0), between(-0.05, 0)),
    skew: between(-0.003, 0.003),
    layer: between(0.1, 0.3),
    firstLayer: between(0.15, 0.35),
    overhang: between(40, 60),
  })
  .map((behaviour) => ({ ...printer(behaviour), overhang: behaviour.overhang }));

const features: fc.Arbitrary<FeatureSpec> = fc.record({
  form: fc.constantFrom(...FORMS),
  longer: between(0.5, 6),
  length: between(2, 5),
  around: fc.tuple(between(1, 4), between(1, 4), between(1, 4), between(1, 4)),
});

/** Quarter turns, as the families lay their parts, and any turn of them on the bed. */
const lays = fc
  .record({ side: fc.constantFrom(...(Object.keys(up) as (keyof typeof up)[])), spin: between(0, Math.PI) })
  .map(({ side, spin }) => {
    const [c, s] = [Math.cos(spin), Math.sin(spin)];
    const onBed = { rotation: [c, -s, 0, s, c, 0, 0, 0, 1], translation: [0, 0, 0] } as const;
    return { name: side, turn: after(onBed, up[side]) };
  });

const middleOf = (layer: number, p: PrinterProfile): number =>
  layer === 0 ? p.firstLayer / 2 : p.firstLayer + (layer - 0.5) * p.layer;

/** Distance from a height to the nearest middle of a layer above it (`side` 1) or below it (-1), mm. */
function toMiddle(height: number, p: PrinterProfile, side: -1 | 1): number {
  let nearest = Infinity;
  for (let k = 0; middleOf(k, p) < height + 1; k++) {
    const off = middleOf(k, p) - height;
    if (off * side >= 0) nearest = Math.min(nearest, Math.abs(off));
  }
  return nearest;
}

/** Whether a round that lies level has a layer so near its top or bottom that its chord there is no wider than the walls
 *  move: then that layer may close, or vanish, and the size comes out one layer smaller than the plan says. */
function crestInDoubt({ drawn, where }: LaidFeature, p: PrinterProfile): boolean {
  const [radius, growth] = [drawn / 2, p.outerGrowth.value];
  const depth = radius - Math.sqrt(radius ** 2 - growth ** 2) + CHORD_ERROR;
  return toMiddle(where.at[2] - radius, p, 1) < depth || toMiddle(where.at[2] + radius, p, -1) < depth;
}

describe('plan and predicted print', () => {
  it('agree on every size, however the part lies', () => {
    const seen = new Map<string, number>();
    let [plain, doubtful] = [0, 0];
    fc.assert(
      fc.property(printers, features, between(1.5, 5), lays, (profile, spec, target, lay) => {
        const laid = laidFeature(scope, spec, spec.form === 'rib' ? target / 1.5 : target, lay, profile);
        const { print, where, planned, reading } = laid;
        const level = reading === 'read across';
        const size = calliperSize(
          print,
          where,
          isHollow(spec) ? 'open' : 'material',
          level ? profile.layer + 0.05 : 0,
        );
        const off = size - planned;
        const says = `${spec.form}, ${reading}: ${size} planned ${planned} drawn ${laid.drawn}`;
        if (reading === 'read up' && isRound(spec) && crestInDoubt(laid, profile)) {
          doubtful++;
          const layers = Math.min(1, Math.round(-off / profile.layer)) * profile.layer;
          expect(Math.abs(off + layers), says).toBeLessThan(WITHIN);
        } else {
          plain++;
          expect(Math.abs(off), says).toBeLessThan(WITHIN);
        }
        const { genus } = soundnessOf(meshOf(laid.solid));
        expect(faultsOf(soundnessOf(meshOf(print)), genus!), says).toEqual([]);
        const key = `${spec.form}, ${reading}`;
        seen.set(key, (seen.get(key) ?? 0) + 1);
        scope.close();
      }),
      { seed: 20261126, numRuns: 600 },
    );
    expect(seen.size).toBe(3 * FORMS.length);
    expect(Math.min(...seen.values())).toBeGreaterThan(15);
    expect(doubtful / plain).toBeLessThan(0.02);
  });
});
