import { beforeAll, describe, expect, it } from 'vitest';
import { barHollow, type HollowForBar } from '../../../src/family/blocks/barHollow.ts';
import { hangingBody } from '../../../src/family/blocks/hangingBody.ts';
import { snapMouth } from '../../../src/family/blocks/snapMouth.ts';
import { type Feature, shapeOfFeatures } from '../../../src/family/feature.ts';
import { loadKernel, type Manifold, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const drop = { id: 'drop', name: 'underside to bar', host: 5 };
const hollow = (told: Partial<HollowForBar> = {}) =>
  barHollow({ id: 'bar', name: 'bar', bar: 2, drop, slide: null, deep: 4, drawn: {}, ...told });
const slotted = { slide: { range: 1, middle: 0.5 } };
const body = (one = hollow(), shoulder = 3) => hangingBody({ hollow: one, arm: 1, shoulder });
const mouth = (one = hollow(), drawn = {}, arm = 1) =>
  snapMouth({ id: 'mouth', name: 'mouth', hollow: one, arm, mouthShare: 0.8, drawn });

/** Measures the part made of these features. */
const made = <T>(features: readonly Feature[], measure: (solid: Manifold) => T): T =>
  withScope(kernel, (scope) => measure(realise(scope, shapeOfFeatures(features))));
const volume = (...features: Feature[]): number => made(features, (solid) => solid.volume());

/** Area of a slot with round ends, mm^2. */
const stadium = (width: number, overall: number): number =>
  width * (overall - width) + (Math.PI * width ** 2) / 4;

describe('the hollow of a bar', () => {
  it.each([
    ['a bore', {}, stadium(2, 2)],
    ['a slot as long as the bar slides', slotted, stadium(2, 3)],
    ['a bore as drawn', { drawn: { bar: 2.3 } }, stadium(2.3, 2.3)],
    ['a slot as drawn', { ...slotted, drawn: { bar: 2.3, 'bar.run': 3.6 } }, stadium(2.3, 3.6)],
  ])('is %s', (_, told, area) => {
    const one = hollow(told);
    const removed = volume(body(one)) - volume(body(one), one);
    expect(removed).toBeGreaterThan(4 * area);
    expect(removed).toBeLessThan(4 * area * 1.01);
  });

  it('goes through the part once', () => {
    expect(made([body(), hollow()], (solid) => solid.genus())).toBe(hollow().holes);
  });

  it('lies where the machine has its bar, or where that was drawn', () => {
    const [far] = Object.values(hollow(slotted).callouts!);
    expect(far).toEqual([
      [0, 0.5, 0],
      [0, 0.5, -6],
    ]);
    const one = hollow({ drawn: { drop: 5.2 } });
    // The middle of what was taken out: of a body alike on both sides, the hollow moves the other way.
    const box = made([{ add: one.cut! }], (solid) => solid.boundingBox());
    expect((box.min[2]! + box.max[2]!) / 2).toBeCloseTo(-5.2, 6);
    expect(one.interfaces!.every(({ at }) => at[2] === -5.2)).toBe(true);
  });

  it.each([
    ['bore', {}, ['bore bar', 'step drop']],
    ['slot', slotted, ['slot bar', 'step drop', 'slot bar.run']],
  ])('meets the bar as a %s does', (_, told, fits) => {
    expect(hollow(told).interfaces!.map(({ kind, id }) => `${kind} ${id}`)).toEqual(fits);
    // 4 A / P; of a round that is its diameter.
    const straight = hollow(told).overall - 2;
    expect(hollow(told).hydraulic).toBeCloseTo(
      (4 * stadium(2, 2 + straight)) / (2 * straight + Math.PI * 2),
      9,
    );
  });
});

describe('the body around it', () => {
  it.each([
    ['a bore', {}],
    ['a slot', slotted],
  ])('of %s is shoulder, sides and a round as thick as the arm', (_, told) => {
    const one = hollow(told);
    const { left, right, outer, head } = body(one);
    const half = one.overall / 2 + 1;
    expect([left, right, outer, head]).toEqual([-3, 3, 2, 1.6]);
    const below = 2 * (half - outer) * outer + (Math.PI * outer ** 2) / 2;
    const area = 6 * head + 2 * half * (5 - head) + below;
    expect(volume(body(one))).toBeLessThan(4 * area);
    expect(volume(body(one))).toBeGreaterThan(4 * area * 0.995);
  });

  it('gives way to the slot where that reaches further than the shoulder', () => {
    const { left, right } = body(hollow({ slide: { range: 4, middle: 2 } }), 1.5);
    // Slot 6 long about 2, an arm of 1 around it.
    expect([left, right]).toEqual([-2, 6]);
  });

  it('keeps a shoulder where the bar runs close under it', () => {
    expect(body(hollow({ drop: { ...drop, host: 2.1 } })).head).toBeCloseTo(1.1, 12);
    expect(body(hollow({ drop: { ...drop, host: 1.5 } })).head).toBe(0.8);
  });
});

describe('the mouth below it', () => {
  it('opens the hole up', () => {
    expect(hollow().holes! + mouth().holes!).toBe(0);
    expect(made([body(), hollow(), mouth()], (solid) => solid.genus())).toBe(0);
  });

  it.each([
    ['a bore', {}, {}, 1.6],
    ['a slot', slotted, {}, 1.6],
    ['a bore as drawn', {}, { mouth: 1.5 }, 1.5],
  ])('of %s is as wide as it should be between its lips', (_, told, drawn, wide) => {
    const one = hollow(told);
    const between = (...features: Feature[]): number =>
      made(features, (solid) => {
        // A slab of the straight lips: from where they meet the hollow to where the flare begins.
        const lip = Math.abs(mouth(one, drawn).loads![0]!.lips[0][1]);
        const flare = (2 - lip) / 2;
        const [top, bottom] = [-5 - lip, -7 + flare];
        const [above, rest] = solid.splitByPlane([0, 0, 1], bottom);
        const [over, slab] = above!.splitByPlane([0, 0, 1], top);
        const found = slab!.volume() / (top - bottom) / 4;
        for (const piece of [above!, rest!, over!, slab!]) piece.delete();
        return found;
      });
    const gap = between(body(one)) - between(body(one), one, mouth(one, drawn));
    // Of a round hollow slivers below its middle fall into the slab; the flats of its facets lie outside the circle.
    expect(gap).toBeCloseTo(wide, 2);
  });

  it('flares to let the bar in, by 30 degrees to either side', () => {
    const [load] = mouth().loads!;
    // Lips at the chord of 1.6 in a circle of 2: 0.6 below the middle.
    expect(load!.lips[1]).toEqual([0.8, expect.closeTo(-0.6, 12)]);
    expect(load!.entry).toBeCloseTo(1.6 + 2 * 0.7 * Math.tan(Math.PI / 6), 12);
    expect(load!.entry).toBeGreaterThan(2);
  });

  it('is held to its bar, and needs lips', () => {
    expect(mouth().interfaces![0]).toMatchObject({ kind: 'slot', id: 'mouth', host: 2 });
    const { lo, hi } = mouth().interfaces![0]!.fit as { lo: number; hi: number };
    expect((lo + hi) / 2).toBeCloseTo(1.6 - 2, 12);
    expect(hi - lo).toBeCloseTo(2 * 0.065 * 2, 12);
    expect(mouth().rules![0]!.ok).toBe(true);
    // A slot's lips begin a full radius below its middle: an arm of half a millimetre leaves none.
    expect(mouth(hollow({ slide: { range: 3, middle: 0 } }), {}, 0.5).rules![0]).toMatchObject({
      ok: false,
      field: 'arm',
    });
    // A slot whose length is not known yet is not judged.
    expect(mouth(hollow({ slide: { range: Number.NaN, middle: 0 } }), {}, 0.1).rules![0]!.ok).toBe(true);
  });

  it('says how the bar goes in', () => {
    expect(mouth().snap('snap it on', true)).toEqual({
      ...{ kind: 'snap', sentence: 'snap it on', load: 'mouth', inHand: true },
    });
  });
});
