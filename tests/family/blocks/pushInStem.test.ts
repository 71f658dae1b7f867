import { beforeAll, describe, expect, it } from 'vitest';
import { type PushInStem, pushInStem, stemSizes, stemWell } from '../../../src/family/blocks/pushInStem.ts';
import type { Made } from '../../../src/family/feature.ts';
import { shapeOfFeatures } from '../../../src/family/feature.ts';
import { block, difference } from '../../../src/family/index.ts';
import {
  loadKernel,
  type Manifold,
  type ManifoldToplevel,
  type Scope,
  withScope,
} from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';
import { materialNames, materials } from '../../../src/standards/materials.ts';
import { legSection } from '../../../src/strength/legSection.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const stem: PushInStem = {
  ...{ hole: 6.5, wall: 2.5, overlap: 0.6, slot: 1, leg: 1.3, root: 4, below: 9, material: materials.PETG },
};
const drawn = { stem: 6.3, barb: 7.1 };

function solidOf(scope: Scope, of: PushInStem): Manifold {
  const well = stemWell(of, drawn);
  const pad = block([-9, -9, -9], [9, 9, 0]);
  return realise(
    scope,
    shapeOfFeatures([{ add: () => (well ? difference(pad, well) : pad) }, pushInStem(of, drawn)]),
  );
}

const findings = (of: PushInStem, u = 0) => {
  const known = { hole: { value: of.hole, u }, wall: { value: of.wall, u: 0 } };
  const made: Made = { drawn, prints: drawn, material: of.material, known };
  return Object.fromEntries(pushInStem(of, drawn).findings!(made).map((one) => [one.id, one]));
};

describe('the solid of a push-in stem', () => {
  it.each([
    ['hollow legs', stem],
    ['solid legs', { ...stem, leg: 4, root: 1 }],
    ['legs from the face', { ...stem, leg: 4, root: 0 }],
  ])('%s: four of them, each of the section that is reckoned with', (_, of) => {
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, of);
      expect(solid.genus()).toBe(0);
      expect(solid.decompose()).toHaveLength(1);
      const cut = scope.keep(solid.slice(1));
      expect(cut.numContour()).toBe(4);
      const bore = Math.max(0, 6.3 - 2 * of.leg);
      const { area } = legSection({ diameter: 6.3, legs: 4, slot: of.slot, bore: bore > of.slot ? bore : 0 });
      // Facets take less than half a hundredth off the circle.
      expect(cut.area() / (4 * area)).toBeGreaterThan(0.99);
      expect(cut.area() / (4 * area)).toBeLessThan(1.005);
    });
  });

  it('is widest by the barb, above the wall, and passes the hole at its tip', () => {
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, stem);
      const across = (z: number): number => {
        const { min, max } = scope.keep(solid.slice(z)).bounds();
        return max[0] - min[0];
      };
      expect(across(1)).toBeCloseTo(6.3, 6);
      const top = solid.boundingBox().max[2]!;
      const heights = Array.from({ length: 400 }, (_, k) => 0.01 + k * 0.015).filter((z) => z < top);
      const widths = heights.map(across);
      expect(Math.max(...widths)).toBeCloseTo(7.1, 6);
      // Where it grows past the hole it is just clear of the wall.
      const past = heights[widths.findIndex((width) => width > 6.5)]!;
      expect(past).toBeGreaterThan(2.5);
      expect(past).toBeLessThan(2.5 + 0.15);
      expect(across(top - 0.01)).toBeLessThan(6.3);
      // Nothing leans out by more than 45 degrees as it is printed.
      widths.forEach((width, k) => {
        if (k > 0) expect((width - widths[k - 1]!) / 2).toBeLessThan((heights[k]! - heights[k - 1]!) * 1.001);
      });
    });
  });
});

describe('what it takes', () => {
  it('strains no less than a leg that is held stiffly at half of it, no more than one with a rigid root', () => {
    const bore = 6.3 - 2 * 1.3;
    const { inertia, outer, inner } = legSection({ diameter: 6.3, legs: 4, slot: 1, bore });
    const deflection = (7.1 - 6.5) / 2;
    // From root to barb: 4 below the face, up to where the flank at 45 degrees ends.
    const length = 4 + 2.5 + 0.1 - 0.1 + 0.4;
    const rigid = (3 * outer * deflection) / length ** 2;
    const { 'stem.strain': strain } = findings(stem);
    expect(inertia).toBeGreaterThan(0);
    expect(inner).toBeGreaterThan(0);
    expect(strain!.value / 100).toBeLessThan(rigid);
    expect(strain!.value / 100).toBeGreaterThan(rigid / 2);
  });

  it('takes the smallest hole for strain and push, the largest for hold', () => {
    const [sure, doubtful] = [findings(stem, 0), findings(stem, 0.05)];
    expect(doubtful['stem.strain']!.value).toBeGreaterThan(sure['stem.strain']!.value);
    expect(doubtful['stem.push']!.value).toBeGreaterThan(sure['stem.push']!.value);
    expect(doubtful['stem.hold']!.value).toBeLessThan(sure['stem.hold']!.value);
    // 0.1 mm more or less in the hole, of 0.6: a sixth of the strain.
    expect(doubtful['stem.strain']!.value / sure['stem.strain']!.value).toBeCloseTo(7 / 6, 6);
  });

  it('holds nothing in a hole as wide as its barb', () => {
    expect(findings({ ...stem, hole: 7.1 }, 0)['stem.hold']!.value).toBe(0);
  });
});

describe('stemSizes', () => {
  const cases = materialNames.flatMap((name) =>
    [3.5, 5, 6.5, 9, 14].flatMap((hole) => [5, 9, 20].map((below) => ({ name, hole, below }))),
  );
  it.each(cases)(
    '$name, hole $hole, $below below: bears its overlap, or has the least there is',
    ({ name, hole, below }) => {
      const material = materials[name];
      const given = { hole, wall: 2.5, material, below };
      const of: PushInStem = { ...given, ...stemSizes(given) };
      const broken = pushInStem(of, {}).rules!.filter(({ ok }) => !ok);
      // A large hole in a low foot leaves no length to bend: said, and made no worse.
      if (broken.length > 0) {
        expect(broken.map(({ field }) => field)).toEqual(['root']);
        expect(below).toBe(5);
        return;
      }
      const made: Made = { drawn: {}, prints: {}, material, known: {} };
      const strain = pushInStem(of, {}).findings!(made).find(({ id }) => id === 'stem.strain')!;
      if (of.overlap > 0.251) expect(strain.value).toBeLessThan(0.75 * strain.limit);
      expect(of.root).toBeLessThan(below - 1.2);
    },
  );
});
