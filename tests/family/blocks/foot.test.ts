import { beforeAll, describe, expect, it } from 'vitest';
import { type FootBody, footBody, footLay } from '../../../src/family/blocks/footBody.ts';
import { footCup, rimHeight } from '../../../src/family/blocks/footCup.ts';
import {
  deskArea,
  footPad,
  type PadOutline,
  padBlock,
  padWidth,
} from '../../../src/family/blocks/footPad.ts';
import { machineOnFeet, stanceOf } from '../../../src/family/blocks/fourFeet.ts';
import { screwUnderFoot } from '../../../src/family/blocks/screwUnderFoot.ts';
import { stickOn } from '../../../src/family/blocks/stickOn.ts';
import { type Feature, type Made, shapeOfFeatures } from '../../../src/family/feature.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';
import { materials } from '../../../src/standards/materials.ts';
import { blockShape } from '../../../src/strength/blockShape.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const disc: PadOutline = { kind: 'round', diameter: 20 };
const bar: PadOutline = { kind: 'rectangular', size: [14, 28] };
const machine = {
  ...{ weight: 6000, frontEdge: 20, apart: 200, across: 300, balance: Number.NaN, balanceAcross: Number.NaN },
};
const made = (prints: Record<string, number>): Made => ({
  ...{ drawn: prints, prints, material: materials.TPU, known: {} },
});
const findingOf = (feature: Feature, id: string, prints: Record<string, number> = {}) =>
  feature.findings!(made(prints)).find((one) => one.id === id)!;

describe('footPad', () => {
  it.each([
    // Cylinder and frustum: pi/4 D^2 (t - c) + pi c / 12 (D^2 + D d + d^2), c 0.6, d 18.8.
    ['round', disc, (Math.PI / 4) * 400 * 7.4 + ((Math.PI * 0.6) / 12) * (400 + 376 + 353.44)],
    // Corners of 3 mm round: a b - (4 - pi) r^2; the chamfer takes perimeter c^2 / 2, to second order.
    ['rectangular', bar, (14 * 28 - (4 - Math.PI) * 9) * 8 - ((2 * 42 - (8 - 2 * Math.PI) * 3) * 0.36) / 2],
  ])('%s: has the volume that geometry says, inside its outline', (_, outline, volume) => {
    withScope(kernel, (scope) => {
      const solid = realise(scope, footPad(outline, { from: -8, to: 0 }));
      expect(solid.volume()).toBeLessThan(volume * 1.0005);
      expect(solid.volume()).toBeGreaterThan(volume * 0.997);
      const { min, max } = solid.boundingBox();
      expect([min[2], max[2]]).toEqual([-8, 0]);
      expect(max[0]! - min[0]!).toBeCloseTo(padWidth(outline), 9);
    });
  });

  it.each([
    ['round', disc],
    ['rectangular', bar],
  ])(
    '%s: is as a block under load what it is in the middle, and stands on what the mesh shows',
    (_, outline) => {
      withScope(kernel, (scope) => {
        const solid = realise(scope, footPad(outline, { from: -8, to: 0 }));
        const area = (z: number): number => scope.keep(solid.slice(z)).area();
        expect(blockShape(padBlock(outline)).area / area(-4)).toBeCloseTo(1, 1);
        expect(deskArea(outline, { from: -8, to: 0 }) / area(-8 + 1e-6)).toBeCloseTo(1, 2);
      });
    },
  );

  it('as a ring keeps its area', () => {
    for (const outline of [disc, bar]) {
      const whole = blockShape(padBlock(outline)).area;
      expect(blockShape(padBlock(outline, 6)).area).toBeCloseTo(whole - Math.PI * 9, 9);
    }
  });
});

describe('stanceOf', () => {
  it('shares the weight by levers: a balance point a quarter in from the front gives the front three quarters', () => {
    const { expected, weight } = stanceOf({ ...machine, balance: 20 + 50, balanceAcross: 150 });
    expect(weight).toBeCloseTo(6 * 9.80665, 9);
    // Springs of one stiffness under a stiff case: each front foot 3/8, each rear foot 1/8.
    expect(expected.map((load) => load / weight)).toEqual(
      [0.375, 0.375, 0.125, 0.125].map((s) => expect.closeTo(s, 9)),
    );
  });

  it('without a balance point doubts the middle, and asks more of every foot', () => {
    const [unread, read] = [stanceOf(machine), stanceOf({ ...machine, balance: 120, balanceAcross: 150 })];
    expect(unread.centre).toEqual({ at: [150, 100], doubt: 30 });
    expect(read.centre).toEqual({ at: [150, 100], doubt: 10 });
    for (const [k, most] of unread.most.entries()) expect(most).toBeGreaterThan(read.most[k]!);
  });
});

describe('machineOnFeet', () => {
  const seen = { corner: 2, thick: 3, foot: { diameter: 12, height: 8 } } as const;
  it('stands around the corner it is told, and names a balance point that would tip it', () => {
    const feature = machineOnFeet(machine, seen);
    const [frontFoot, rearFoot] = feature.callouts!.apart!;
    expect([frontFoot, rearFoot]).toEqual([
      [300, -200, 0],
      [300, 0, 0],
    ]);
    expect(feature.rules!.filter(({ ok }) => !ok)).toEqual([]);
    const tipping = machineOnFeet({ ...machine, balance: 240 }, seen);
    expect(tipping.rules!.filter(({ ok }) => !ok).map(({ field }) => field)).toEqual(['balance']);
  });

  it('asks for two people from ten kilograms on', () => {
    expect(machineOnFeet({ ...machine, weight: 9000 }, seen).cautions![0]).not.toContain('two people');
    expect(machineOnFeet({ ...machine, weight: 12_000 }, seen).cautions![0]).toContain('two people');
  });
});

const body = (told: Partial<FootBody> = {}): FootBody => ({
  ...{ outline: disc, top: 0, asked: 8, material: materials.TPU, hardness: 95, stance: stanceOf(machine) },
  ...{ corner: null, heights: [8, 8, 8, 8], drawn: {} },
  ...told,
});

describe('footBody', () => {
  it('is drawn higher the softer it is and the more it carries', () => {
    const host = (told: Partial<FootBody>) => footBody(body(told)).interfaces![0]!.host;
    expect(host({ material: materials.PETG })).toBeCloseTo(8, 2);
    expect(host({ hardness: 60 })).toBeGreaterThan(host({ hardness: 80 }));
    expect(host({ hardness: 80 })).toBeGreaterThan(8);
    const heavy = stanceOf({ ...machine, weight: 12_000 });
    expect(host({ hardness: 60, stance: heavy })).toBeGreaterThan(host({ hardness: 60 }));
  });

  it('lies on its top when a hollow opens to the desk, and its height starts from there', () => {
    const open = body({ bore: { diameter: 7, toDesk: true } });
    expect(footLay(open).name).toBe('top down');
    expect(footBody(open).interfaces![0]!.across).toEqual([0, 0, 1]);
    expect(footBody(body()).interfaces![0]!.across).toEqual([0, 0, -1]);
  });

  it('refuses a case that leans by more than 20 degrees', () => {
    const steep = footBody(body({ heights: [8, 8, 90, 90] }));
    expect(steep.rules!.filter(({ ok }) => !ok).map(({ field }) => field)).toEqual(['rearLeft']);
  });
});

describe('screwUnderFoot', () => {
  const screw = { screw: 4, head: 7.4, headHeight: 2.6, sink: 1.5, lowest: { height: 8, field: 'height' } };
  it('leaves under the head what head and sink leave of the height, and the head off the desk by the sink', () => {
    const feature = screwUnderFoot({ ...screw, body: body({ bore: { diameter: 7.4, toDesk: true } }) });
    expect(findingOf(feature, 'plate', { height: 8 }).value).toBeCloseTo(8 - 2.6 - 1.5, 9);
    const { value } = findingOf(feature, 'head', { height: 8 });
    // TPU of 95 A gives some hundredths under a machine of 6 kg.
    expect(value).toBeLessThan(1.5);
    expect(value).toBeGreaterThan(1.4);
  });

  it('blames the lowest foot', () => {
    const low = screwUnderFoot({ ...screw, lowest: { height: 5, field: 'rearLeft' }, body: body() });
    expect(low.rules!.filter(({ ok }) => !ok).map(({ field }) => field)).toEqual(['rearLeft']);
  });
});

describe('stickOn', () => {
  const stuck = (told: Partial<FootBody>, recess: PadOutline = disc) =>
    stickOn({
      ...{ recess, deep: 1.5, tape: 0.2, load: 15 },
      body: body({ outline: recess, top: 1.3, ...told }),
    });

  it('asks no tape to hold a low wide foot down: moments about its edge', () => {
    // PETG, friction up to 0.5: 0.5 x 15 N x 6.7 mm below the case is less than 15 N x 10 mm.
    const { limit } = findingOf(stuck({ material: materials.PETG }), 'tape', { height: 8, recess: 19.5 });
    // What is left is its own weight: pi 100 x 8 mm3 of 1.27 g/cm3 on 0.001 MPa.
    expect(limit).toBeCloseTo(((Math.PI * 100 * 8 * 1.27) / 1e6 / 0.001) * 9.80665, 6);
  });

  it('and a tall narrow rubber foot to roll out: moments about its edge', () => {
    const slim: PadOutline = { kind: 'round', diameter: 8 };
    const { limit } = findingOf(stuck({ asked: 16 }, slim), 'tape', { height: 16, recess: 7.5 });
    // TPU, friction up to 1: (15 N x 14.7 mm - 15 N x 4 mm) / 4 mm, on 0.01 MPa.
    expect(limit).toBeCloseTo((15 * 14.7 - 15 * 4) / 4 / 0.01, 6);
  });

  it('measures the room to bulge on each side of what is printed', () => {
    expect(findingOf(stuck({}), 'bulge', { height: 8, recess: 19.5 }).limit).toBeCloseTo(0.25, 9);
    const prints = { height: 8, 'recess.width': 13.7, 'recess.length': 27.6 };
    expect(findingOf(stuck({}, bar), 'bulge', prints).limit).toBeCloseTo(0.15, 9);
  });
});

describe('footCup', () => {
  const tilt = 0.1;
  const cup = {
    ...{
      foot: 18,
      deep: 4,
      tilt,
      base: 28,
      rise: 15,
      load: 12,
      weight: 50,
      material: materials.PETG,
      drawn: {},
    },
  };
  it('has floor and rim tilted, as deep as asked, with plastic to the rim everywhere', () => {
    withScope(kernel, (scope) => {
      const pad = { add: () => footPad({ kind: 'round', diameter: 28 }, { from: -15, to: rimHeight(cup) }) };
      const solid = realise(scope, shapeOfFeatures([pad, footCup({ ...cup, drawn: { cup: 19 } })]));
      const height = (x: number, y: number): number => {
        const hit = solid.rayCast([x, y, 60], [x, y, -20])[0]!;
        return 60 - 80 * hit.distance;
      };
      const slope = Math.tan(tilt);
      for (const [x, y] of [
        [0.3, 0.2],
        [5, 5],
        [-4, -6],
      ] as const)
        expect(height(x, y)).toBeCloseTo(y * slope, 9);
      // The rim lies 4 mm above the floor along the cup's axis, out to the edge.
      for (const y of [-13.8, 13.8]) expect(height(0.1, y)).toBeCloseTo(4 / Math.cos(tilt) + y * slope, 6);
      expect(solid.genus()).toBe(0);
    });
  });

  it('holds the old foot upright in it', () => {
    withScope(kernel, (scope) => {
      const pad = { add: () => footPad({ kind: 'round', diameter: 28 }, { from: -15, to: rimHeight(cup) }) };
      const feature = footCup({ ...cup, drawn: { cup: 18.5 } });
      const solid = realise(scope, shapeOfFeatures([pad, feature]));
      const foot = realise(scope, feature.hosts!()[0]!.shape);
      expect(scope.keep(solid.intersect(foot)).volume()).toBeLessThan(1e-6);
      expect(feature.hosts!()[0]!.seat).toEqual([
        0,
        expect.closeTo(-Math.sin(tilt), 12),
        expect.closeTo(Math.cos(tilt), 12),
      ]);
    });
  });

  it('refuses a ramp', () => {
    const ok = (radians: number) => footCup({ ...cup, tilt: radians }).rules!.every((rule) => rule.ok);
    expect(ok((19.9 * Math.PI) / 180)).toBe(true);
    expect(ok((20.1 * Math.PI) / 180)).toBe(false);
  });
});
