import { beforeAll, describe, expect, it } from 'vitest';
import { type SunkHead, screwHole } from '../../../src/family/blocks/screwHole.ts';
import { shapeOfFeatures } from '../../../src/family/feature.ts';
import { block } from '../../../src/family/index.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const plate = { add: () => block([-10, -10, 0], [10, 10, 8]) };
const flat: SunkHead = { kind: 'flat', diameter: 7, height: 2.5, sunk: 4 };
const countersunk: SunkHead = { kind: 'countersunk', diameter: 7, cone: 90 };

/** Volume of a frustum of diameters D and d, mm^3. */
const frustum = (D: number, d: number, h: number): number => (Math.PI * h * (D * D + D * d + d * d)) / 12;
const round = (d: number, h: number): number => frustum(d, d, h);

describe.each([1, -1] as const)('a screw hole, screw going in along %d z', (into) => {
  const hole = (head?: SunkHead, drawn = {}) =>
    screwHole({
      ...{ id: 'screw', name: 'screw', at: [1, 2, into === 1 ? 0 : 8], into, through: 8, screw: 4, drawn },
      ...(head && { head }),
    });

  // Closed forms. Facets lie outside the circles they stand for, by less than 0.005 mm all round.
  it.each([
    ['for a head on the face', undefined, round(4, 8)],
    ['counterbored', flat, round(7, 4) + round(4, 4)],
    // The cone comes down to the 4 mm hole after 1.5 mm.
    ['countersunk', countersunk, frustum(7, 4, 1.5) + round(4, 6.5)],
  ])('%s takes out what geometry says', (_, head, expected) => {
    const feature = hole(head);
    withScope(kernel, (scope) => {
      const solid = realise(scope, shapeOfFeatures([plate, feature]));
      const removed = 20 * 20 * 8 - solid.volume();
      expect(removed).toBeGreaterThan(expected);
      expect(removed).toBeLessThan(expected * 1.01);
      expect(solid.genus()).toBe(1);
    });
  });

  it.each([
    ['for a head on the face', undefined],
    ['counterbored', flat],
    ['countersunk', countersunk],
  ])('%s lets the screw in: it stands in the hole and touches nothing', (_, head) => {
    withScope(kernel, (scope) => {
      // The cone is drawn as wide as its head; the others are bored wider for the printer.
      const feature = hole(head, { screw: 4.4, 'screw.head': 7.6 });
      const solid = realise(scope, shapeOfFeatures([plate, feature]));
      const [screw] = feature.hosts!();
      const shared = scope.keep(solid.intersect(realise(scope, screw!.shape)));
      expect(shared.volume()).toBeLessThan(1e-3);
      const { min, max } = realise(scope, screw!.shape).boundingBox();
      expect(max[2]! - min[2]!).toBeGreaterThan(8);
    });
  });

  it('draws the sizes it is given', () => {
    withScope(kernel, (scope) => {
      const solid = realise(scope, shapeOfFeatures([plate, hole(flat, { screw: 4.5, 'screw.head': 7.6 })]));
      const area = (z: number) => 400 - scope.keep(solid.slice(z)).area();
      const [narrow, wide] = into === 1 ? [6, 2] : [2, 6];
      expect(Math.sqrt((4 * area(narrow)) / Math.PI)).toBeCloseTo(4.5, 1);
      expect(Math.sqrt((4 * area(wide)) / Math.PI)).toBeCloseTo(7.6, 1);
    });
  });

  it('meets screw and head, a counterbore only where there is one', () => {
    expect(hole().interfaces!.map(({ id }) => id)).toEqual(['screw']);
    const [shank, head] = hole(flat).interfaces!;
    expect([shank!.host, shank!.length, head!.host, head!.length]).toEqual([4, 4, 7, 4]);
    // Middles: 2 mm into the counterbore, 6 mm in for the rest.
    expect([shank!.at[2], head!.at[2]]).toEqual(into === 1 ? [6, 2] : [2, 6]);
  });
});
