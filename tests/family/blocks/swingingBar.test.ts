import { beforeAll, describe, expect, it } from 'vitest';
import { barReading, swingReadings } from '../../../src/family/blocks/barReadings.ts';
import { groundPlate } from '../../../src/family/blocks/groundPlate.ts';
import { roomAround, roomReadings } from '../../../src/family/blocks/roomAround.ts';
import { swing } from '../../../src/family/blocks/swing.ts';
import { type BarThatSwings, swingingBar } from '../../../src/family/blocks/swingingBar.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../../src/solid/kernel.ts';
import { place } from '../../../src/solid/placement.ts';
import { block } from '../../../src/solid/primitives.ts';
import { realise } from '../../../src/solid/realise.ts';
import { lengthOf, subtract } from '../../../src/solid/vector.ts';
import { findMaterial } from '../../../src/standards/materials.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const told: BarThatSwings = {
  ...{ id: 'bar', name: 'bar', swing: swing({ reach: 10, rise: 6, travel: 6 }), ground: 'plate' },
  ...{ words: { moves: 'key', part: 'clip' }, meets: ['bar.run'] },
  hollow: { id: 'bar', slotted: true, deep: 4, drop: 5 },
  ...{ barDiameter: 1.6, engagement: 3.5, axialRoom: 2, hingeHeight: 1.5 },
};
const bar = (change: Partial<BarThatSwings> = {}) => swingingBar({ ...told, ...change });
const socket = { interfaces: [], wall: 1, contact: 4, material: 'ABS' } as const;

describe('a bar that swings', () => {
  it('has its end in the part and its leg towards the hinge', () => {
    withScope(kernel, (scope) => {
      const solid = realise(scope, bar().hosts!()[0]!.shape);
      const { min, max } = solid.boundingBox();
      // End from 2 - 3.5; the leg bends away 1.2 beside the face, as thick as the wire.
      expect(min[0]).toBeCloseTo(-1.5, 6);
      expect(max[0]).toBeCloseTo(2 + 1.2 + 1.6, 6);
      // The leg ends square on the hinge line: 8 back and 6 down from the end, a radius about its middle.
      expect(min[1]).toBeCloseTo(-8 - 0.8 * 0.6, 2);
      expect(min[2]).toBeCloseTo(-11 - 0.8 * 0.8, 2);
      expect(bar().hosts!()[0]!.meets).toEqual(['bar', 'bar.run']);
    });
  });

  it('keeps its hinge on the ground, which comes up as the part goes down, and its end in the hollow', () => {
    const poses = bar().motion!();
    expect(poses.at(0)!.name).toBe('key up');
    expect(poses.at(-1)!.name).toBe('key 6.00 mm down');
    poses.forEach(({ placements }, k) => {
      const down = (6 * k) / (poses.length - 1);
      const [x, y, z] = place(placements.bar!, [0, -8, -11]);
      expect([x, y, z]).toEqual([0, expect.closeTo(-8, 9), expect.closeTo(-11 + down, 9)]);
      // By Pythagoras: 10 long, 6 - down high.
      const slid = Math.sqrt(100 - (6 - down) ** 2) - 8;
      expect(place(placements.bar!, [0, 0, -5])[1]).toBeCloseTo(slid, 9);
      expect(place(placements.bar!, [0, 0, -5])[2]).toBeCloseTo(-5, 9);
      expect(place(placements.plate!, [0, 0, -13])).toEqual([0, 0, -13 + down]);
    });
  });

  it.each([
    [true, { bar: 1.8, 'bar.run': 3.7 }, 2.1],
    [true, { bar: 1.8, 'bar.run': 1.7 }, 0.2],
    [false, { bar: 1.8 }, 0.2],
  ])(
    'binds where its hollow as printed leaves less than its slide (slot %s, %o)',
    (slotted, prints, play) => {
      const made = { drawn: {}, prints, material: findMaterial('PLA')!, known: {} };
      const [finding] = bar({ hollow: { ...told.hollow, slotted } }).findings!(made);
      // 10 beside the hinge when level, 8 at first.
      expect(finding).toMatchObject({ id: 'binding', side: 'below', value: expect.closeTo(2, 12) });
      expect(finding!.limit).toBeCloseTo(play, 12);
      expect(finding!.because).toContain('slides 2.00 mm in the clip over 6.00 mm of travel');
    },
  );

  it('must reach as far as it moves', () => {
    expect(bar().rules![0]!.ok).toBe(true);
    const short = bar({ swing: swing({ reach: 6, rise: 6, travel: 6 }) }).rules![0]!;
    expect(short).toMatchObject({ ok: false, field: 'reach' });
    expect(short.reason).toContain('end 6.00 mm above it with the key up, 0.00 mm with the key down');
  });

  it('is threaded in what room there is: none is missing off the machine', () => {
    expect(bar().thread('thread it', socket, 'in the machine')).toMatchObject({
      ...{ needed: 3.5, room: 2, lever: 5, wire: { diameter: 1.6, leg: 10 } },
    });
    expect(bar().thread('thread it', socket, 'loose')).toMatchObject({ room: Infinity, lever: null });
  });

  it('is drawn and asked under the same names, jaws as far apart as they read', () => {
    const { callouts } = bar();
    const asked = Object.keys({ ...barReading, ...swingReadings('the clip') });
    expect(Object.keys(callouts!).sort()).toEqual(asked.sort());
    const read: Readonly<Record<string, number>> = { ...told, reach: 10 } as never;
    for (const id of asked) {
      const [a, b] = callouts![id]!;
      expect(lengthOf(subtract(b, a)), id).toBeCloseTo(read[id]!, 9);
    }
    // Both end at the hinge: 8 beside the bar's end and 6 below it.
    const hinge = [0, expect.closeTo(-8, 9), expect.closeTo(-11, 9)];
    expect([callouts!.reach![1], callouts!.hingeHeight![1]]).toEqual([hinge, hinge]);
  });
});

describe('the machine around a part', () => {
  const room = (deep: number, sides: [number, number]) =>
    roomAround({
      ...{ id: 'room', name: 'walls', part: { name: 'clip', remedy: 'thinner arms would help' } },
      ...{ deep, sides, roomAlong: 6, roomAcross: 8 },
    });

  it('has walls as far apart as they were read, the part in their middle', () => {
    withScope(kernel, (scope) => {
      const walls = realise(scope, room(4, [-1, 5]).hosts!()[0]!.shape);
      const shared = (from: [number, number, number], to: [number, number, number]): number =>
        scope.keep(walls.intersect(realise(scope, block(from, to)))).volume();
      // The middle lies at y = 2.
      expect(shared([-3, -2, -2], [3, 6, 0])).toBeLessThan(1e-9);
      expect(shared([-3.1, -2, -2], [3.1, 6, 0])).toBeCloseTo(2 * 0.1 * 8 * 2, 4);
      expect(shared([-3, -2.1, -2], [3, 6, 0])).toBeCloseTo(0.1 * 6 * 2, 4);
    });
  });

  it.each([
    ['neither', 6, [-4, 4], []],
    ['roomAcross', 6, [-4, 4.1], ['roomAcross']],
    ['roomAlong', 6.1, [-4, 4], ['roomAlong']],
    ['nothing where the part has no size yet', 6, [Number.NaN, 4], []],
  ] as const)('blames %s', (_, deep, sides, fields) => {
    const refused = room(deep, [...sides]).rules!.filter(({ ok }) => !ok);
    expect(refused.map(({ field }) => field)).toEqual(fields);
  });

  it('asks for the rooms it draws', () => {
    const { callouts } = room(4, [-1, 5]);
    expect(Object.keys(callouts!)).toEqual(Object.keys(roomReadings('the walls', 'one way', 'the other')));
    expect(callouts!.roomAcross!.map(([, y]) => y)).toEqual([-2, 6]);
  });

  it('has a plate below it', () => {
    withScope(kernel, (scope) => {
      const [plate] = groundPlate({ id: 'plate', name: 'plate', below: 13, span: [-20, 8] }).hosts!();
      const { min, max } = realise(scope, plate!.shape).boundingBox();
      expect([min[1], max[1], max[2]]).toEqual([-20, 8, -13]);
      expect(plate!.keepOff).toBeGreaterThan(0);
    });
  });
});
