import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { cutAndRejoin } from '../../../src/donor/respace/cutAndRejoin.ts';
import { type NamedFeature, stretchOf } from '../../../src/donor/respace/featureChange.ts';
import { proposeRefit, refit } from '../../../src/donor/respace/proposeRefit.ts';
import { respace } from '../../../src/donor/respace/respace.ts';
import { mirrorLevel } from '../../../src/donor/spans/mirrorLevel.ts';
import { loadKernel, type ManifoldToplevel, Scope } from '../../../src/solid/kernel.ts';
import { block, cylinder, prism } from '../../../src/solid/primitives.ts';
import { difference, type Shape } from '../../../src/solid/shape.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';
import { donorFrom, isClosed, manifoldOf, volumeOf } from './donorOf.ts';
import { turned, turnedAxis } from './turned.ts';

let kernel: ManifoldToplevel;
let scope: Scope;
beforeAll(async () => {
  kernel = await loadKernel();
  scope = new Scope(kernel);
});
afterAll(() => scope.close());

const X: Vec3 = [1, 0, 0];
const bore = (x: number, y = 6, diameter = 4) =>
  cylinder({ axis: 'z', diameter, from: [x, y, -1], length: 10, sense: 'bore' });
const bar = (...at: number[]): Shape => difference(block([0, 0, 0], [60, 12, 5]), ...at.map((x) => bore(x)));
const donor = (shape: Shape) => donorFrom(scope, shape);
/** A bar whose whole outline swells and narrows: nothing plain along x. */
const wavy = prism(
  'z',
  [
    ...Array.from({ length: 41 }, (_, k): [number, number] => [1.5 * k, -4 - Math.sin(k / 5)]),
    ...Array.from({ length: 41 }, (_, k): [number, number] => [60 - 1.5 * k, 4 + Math.sin((40 - k) / 7)]),
  ],
  0,
  5,
);

describe('proposeRefit', () => {
  test('takes the one span that is long enough', () => {
    const mesh = donor(bar(10, 50, 56));
    const proposal = proposeRefit(mesh, { axis: X, by: -20 });
    expect(proposal).toMatchObject({ exact: true, mirror: null });
    expect(proposal.choices[0]).toMatchObject({
      kind: 'span',
      exact: true,
      keepsSymmetry: null,
      changes: [],
    });
    const after = refit(mesh, X, proposal.choices[0]!);
    expect(volumeOf(mesh) - volumeOf(after)).toBeCloseTo(20 * 12 * 5, 4);
  });

  test('several when none is', () => {
    const mesh = donor(bar(12, 30, 44, 52));
    const proposal = proposeRefit(mesh, { axis: X, by: -18 }, { keepSymmetry: false });
    const [best] = proposal.choices;
    expect(proposal.exact).toBe(true);
    expect(best).toMatchObject({ kind: 'spans' });
    expect(volumeOf(mesh) - volumeOf(refit(mesh, X, best!))).toBeCloseTo(18 * 12 * 5, 4);
  });

  test('a symmetric donor stays so, half on each side or all around the middle', () => {
    for (const [at, kind] of [
      [[30], 'spans'],
      [[10, 50], 'span'],
    ] as const) {
      const mesh = donor(bar(...at));
      for (const by of [-6, 9]) {
        const { exact, choices, mirror } = proposeRefit(mesh, { axis: X, by });
        expect(mirror).toBe(30);
        expect(exact).toBe(true);
        expect(choices[0]).toMatchObject({ kind, keepsSymmetry: true, stays: 30 });
        expect(mirrorLevel(refit(mesh, X, choices[0]!), X)).toBeCloseTo(30, 9);
      }
    }
  });

  test('told otherwise it may lose its symmetry', () => {
    const mesh = donor(bar(30));
    const free = proposeRefit(mesh, { axis: X, by: -6 }, { keepSymmetry: false });
    expect(free.choices[0]).toMatchObject({ kind: 'span', keepsSymmetry: null });
    expect(mirrorLevel(refit(mesh, X, free.choices[0]!), X)).toBeNull();
  });

  test('prefers the span that leaves named features alone, and tells when one becomes longer', () => {
    const lengthwise = (x: number): NamedFeature => ({
      ...{ id: 'bore1', at: [x, 6, 2.5], axis: X, diameter: 1, depth: 20 },
    });
    const mesh = donor(
      difference(
        bar(30, 56),
        cylinder({ axis: 'x', diameter: 1, from: [-1, 6, 2.5], length: 21, sense: 'bore' }),
      ),
    );
    const options = { features: [lengthwise(10)] };
    const { choices } = proposeRefit(mesh, { axis: X, by: -3 }, options);
    expect(choices[0]).toMatchObject({ kind: 'span', changes: [] });
    const other = choices.find(({ changes }) => changes.length > 0)!;
    expect(other.changes).toEqual([{ id: 'bore1', kind: 'longer', by: expect.closeTo(-3, 9) }]);
  });

  test('never takes a distorting change silently: nothing plain, so choices with what they cost', () => {
    const mesh = donor(wavy);
    const feature: NamedFeature = { id: 'bore1', at: [30, 0, 2.5], axis: [0, 0, 1], diameter: 3, depth: 5 };
    const proposal = proposeRefit(mesh, { axis: X, by: -5 }, { features: [feature], kernel });
    expect(proposal.exact).toBe(false);
    expect(proposal.choices.length).toBeGreaterThan(1);
    expect(proposal.choices.every(({ exact }) => !exact)).toBe(true);
    expect(proposal.choices.map(({ kind }) => kind)).toContain('cut');
    expect(proposal.choices.map(({ kind }) => kind)).toContain('stretch');
    for (const choice of proposal.choices) {
      const after = refit(mesh, X, choice, kernel);
      expect(isClosed(after)).toBe(true);
      const box = manifoldOf(scope, after).boundingBox();
      expect(box.max[0] - box.min[0]).toBeCloseTo(55, 4);
    }
    const whole = proposal.choices.find(
      (choice) => choice.kind === 'stretch' && choice.changes.length > 0 && choice.strain < 0.1,
    )!;
    // 3 of 60 mm of a stretch that loses 5 mm: 0.25 mm off the bore across.
    expect(whole.changes).toEqual([{ id: 'bore1', kind: 'distorted', by: expect.closeTo(-0.25, 9) }]);
  });

  test('the mismatch of a cut is the area that Manifold finds between the sections', () => {
    const mesh = donor(wavy);
    const { choices } = proposeRefit(mesh, { axis: X, by: -5 }, { kernel });
    const cut = choices.find((choice) => choice.kind === 'cut')!;
    if (cut.kind !== 'cut') throw new Error('no cut');
    // x up: (x, y, z) to (y, z, x).
    const laid = mesh.positions.map((_, i) => mesh.positions[i - (i % 3) + [1, 2, 0][i % 3]!]!);
    const solid = manifoldOf(scope, { ...mesh, positions: laid });
    const [a, b] = [scope.keep(solid.slice(cut.cut.at)), scope.keep(solid.slice(cut.cut.at + 5))];
    const both = scope.keep(a.intersect(b)).area();
    expect(cut.mismatchArea).toBeCloseTo(a.area() + b.area() - 2 * both, 3);
    // No worse than a blind cut in the middle.
    const [c, d] = [scope.keep(solid.slice(27.5)), scope.keep(solid.slice(32.5))];
    expect(cut.mismatchArea).toBeLessThanOrEqual(
      c.area() + d.area() - 2 * scope.keep(c.intersect(d)).area() + 1e-6,
    );
  });

  test('refuses to change nothing', () => {
    for (const by of [0, Number.NaN, Infinity])
      expect(() => proposeRefit(donor(wavy), { axis: X, by })).toThrow(/a change other than 0/);
  });
});

describe('cutAndRejoin', () => {
  test.each([-7, 4])('on a plain span it is the same solid as re-spacing, by %d', (by) => {
    for (const turn of [null, 0.8]) {
      const plain = donor(bar(10, 50));
      const mesh = turn === null ? plain : turned(plain, turn);
      const axis = turn === null ? X : turnedAxis(X, turn);
      const sawn = manifoldOf(scope, cutAndRejoin(scope, mesh, axis, { at: 25, by }));
      const spaced = manifoldOf(scope, respace(mesh, axis, [{ from: 20, to: 40, by }]));
      expect(sawn.genus()).toBe(spaced.genus());
      expect(scope.keepAll(sawn.decompose())).toHaveLength(1);
      expect(sawn.volume()).toBeCloseTo(spaced.volume(), 2);
      const only = scope.keep(sawn.subtract(spaced)).volume() + scope.keep(spaced.subtract(sawn)).volume();
      expect(only).toBeLessThan(1e-5 * spaced.volume());
    }
  });

  test('a cut outside is refused', () => {
    const mesh = donor(bar(10));
    for (const cut of [
      { at: -1, by: -2 },
      { at: 59, by: -2 },
      { at: 60, by: 3 },
      { at: 20, by: 0 },
    ])
      expect(() => cutAndRejoin(scope, mesh, X, cut)).toThrow(/a cut between 0 and 60/);
  });
});

test('a cylinder at a slant reaches as far along an axis as its corners', () => {
  const at: Vec3 = [1, 2, 3];
  const slant: NamedFeature = { id: 'p', at, axis: [Math.SQRT1_2, 0, Math.SQRT1_2], diameter: 4, depth: 10 };
  // Half of 10 and half of 4, both at 45 degrees.
  const half = (5 + 2) * Math.SQRT1_2;
  expect(stretchOf(slant, [0, 0, 1])).toEqual([expect.closeTo(3 - half, 12), expect.closeTo(3 + half, 12)]);
  expect(stretchOf({ ...slant, axis: X }, [0, 0, 1])).toEqual([1, 5]);
});
