import { beforeAll, describe, expect, it } from 'vitest';
import { seatAround } from '../../../src/family/blocks/seatAround.ts';
import { type PostInSocket, socketPost } from '../../../src/family/blocks/socketPost.ts';
import { normalPost, socketReadings } from '../../../src/family/blocks/socketReadings.ts';
import { loadKernel, type ManifoldToplevel, type Scope, withScope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';
import { lengthOf, subtract } from '../../../src/solid/vector.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const plain: PostInSocket = {
  ...{ id: 'socket', name: 'socket', plastic: 'ABS', round: false, ribs: false, flats: false },
  ...{ socketWidth: 4, socketLength: 5, socketDiameter: 4, socketDepth: 4.5, socketWall: 1.2 },
  ...{ postLength: 4, leadIn: 0.5, root: () => 1, drawn: {} },
};
const post = (told: Partial<PostInSocket> = {}) => socketPost({ ...plain, ...told });
const solidOf = (scope: Scope, one: ReturnType<typeof post>) => realise(scope, one.add!());
const hostOf = (scope: Scope, one: ReturnType<typeof post>) => realise(scope, one.hosts!()[0]!.shape);

/** Volume between two parallel sections with straight sides: h (A + 4 M + B) / 6, mm^3. */
const prismoid = (h: number, A: number, M: number, B: number): number => (h * (A + 4 * M + B)) / 6;

describe('a post in a socket', () => {
  it('is a block with a chamfered tip', () => {
    withScope(kernel, (scope) => {
      // 1 mm of root and 3.5 mm of neck, then 0.5 mm that taper by 0.5 mm a side.
      const expected = 4 * 5 * 4.5 + prismoid(0.5, 4 * 5, 3.5 * 4.5, 3 * 4);
      expect(solidOf(scope, post()).volume()).toBeCloseTo(expected, 3);
    });
  });

  it('is a shaft when the socket is round, never outside its circle', () => {
    withScope(kernel, (scope) => {
      const round = (d: number): number => (Math.PI * d * d) / 4;
      const expected = 4.5 * round(4) + prismoid(0.5, round(4), round(3.5), round(3));
      const volume = solidOf(scope, post({ round: true })).volume();
      expect(volume).toBeLessThan(expected);
      expect(volume).toBeGreaterThan(expected * 0.99);
    });
  });

  it('gets flats where its flank leans over by more than 45 degrees', () => {
    withScope(kernel, (scope) => {
      const one = post({ round: true, flats: true });
      const { min, max } = solidOf(scope, one).boundingBox();
      expect(max[0]! - min[0]!).toBeCloseTo(4 * Math.SQRT1_2, 6);
      expect(max[1]! - min[1]!).toBeCloseTo(4, 6);
      expect(one.deep).toBeCloseTo(4 * Math.SQRT1_2, 12);
    });
  });

  it('touches with the crests of its ribs alone', () => {
    withScope(kernel, (scope) => {
      const solid = solidOf(scope, post({ ribs: true }));
      const { min, max } = solid.boundingBox();
      expect(max[1]! - min[1]!).toBeCloseTo(4, 6);
      // Core 3.5 by 5; a rib is 0.4 wide at its crest and widens by 0.6 over 0.45, of which 0.25 stand out of the core.
      const foot = 0.4 + (0.6 * 0.25) / 0.45;
      expect(scope.keep(solid.slice(2)).area()).toBeCloseTo(3.5 * 5 + 2 * ((0.4 + foot) / 2) * 0.25, 3);
    });
  });

  it.each([false, true])('goes into its socket with what was drawn for it, round %s', (round) => {
    withScope(kernel, (scope) => {
      const shared = (width: number): number => {
        const one = post({ round, drawn: { 'socket.width': width, 'socket.length': 4.8 } });
        return scope.keep(solidOf(scope, one).intersect(hostOf(scope, one))).volume();
      };
      expect(shared(3.95)).toBeLessThan(1e-9);
      // 0.1 mm too wide: it bites 0.05 mm deep all round, or on both sides, above the rim.
      const straight = 3.5 - 0.3;
      const bitten = straight * (round ? Math.PI * 4.05 * 0.05 : 2 * 4.8 * 0.05);
      expect(shared(4.1)).toBeGreaterThan(bitten * 0.85);
      expect(shared(4.1)).toBeLessThan(bitten * 1.1);
    });
  });

  it('finds walls as thick as they are, and a floor as deep as it is', () => {
    withScope(kernel, (scope) => {
      const { min, max } = hostOf(scope, post()).boundingBox();
      expect([min[0], max[0], min[1], max[1]].map((x) => Math.abs(x!))).toEqual(
        [3.7, 3.7, 3.2, 3.2].map((x) => expect.closeTo(x, 6)),
      );
      const section = (z: number) => scope.keep(hostOf(scope, post()).slice(z)).area();
      expect(section(4.4)).toBeCloseTo(6.4 * 7.4 - 20, 4);
      expect(section(4.6)).toBeCloseTo(6.4 * 7.4, 4);
    });
  });

  it.each([
    [{}, ['post socket.width', 'post socket.length'], ['socket.width', 'socket.length']],
    [{ round: true }, ['post socket.width'], ['socket.width']],
    [{ ribs: true }, ['rib socket.width', 'post socket.length'], ['socket.width', 'socket.length']],
  ])('meets it in as many sizes as it has: %o', (told, fits, pressed) => {
    const one = post(told);
    expect(one.interfaces!.map(({ kind, id }) => `${kind} ${id}`)).toEqual(fits);
    expect(one.press('push')).toMatchObject({ kind: 'press', socket: { interfaces: pressed, contact: 4 } });
  });

  it.each([
    ['postLength', { postLength: 4.5 }],
    ['leadIn', { leadIn: 2 }],
    ['leadIn', { leadIn: 1.3, socketWidth: 3.6 }],
    ['socketWidth', { ribs: true, socketWidth: 2 }],
    ['socketDiameter', { ribs: true, round: true, socketDiameter: 2 }],
  ])('blames %s for what leaves no post', (field, told) => {
    const refused = (one: Partial<PostInSocket>) =>
      post(one)
        .rules!.filter(({ ok }) => !ok)
        .map((rule) => rule.field);
    expect(refused({})).toEqual([]);
    expect(refused(told)).toContain(field);
  });

  it('is drawn and asked under the same names, jaws as far apart as they read', () => {
    const readings = socketReadings('across', 'along');
    const { callouts } = post();
    expect(Object.keys(callouts!).sort()).toEqual(Object.keys(readings).sort());
    for (const id of Object.keys(readings) as (keyof typeof readings)[]) {
      const [a, b] = callouts![id]!;
      expect(lengthOf(subtract(b, a)), id).toBeCloseTo(plain[id], 9);
    }
    expect(readings.socketDiameter.when!({ post: 'round' })).toBe(true);
    expect(readings.socketWidth.when!({ post: 'round' })).toBe(false);
    expect(normalPost({ socketDepth: 4.5 }).postLength).toBeCloseTo(4.1, 12);
  });
});

describe('a seat around a socket', () => {
  it('lies at z = 0, beyond part and socket, and leaves the rim of the socket free', () => {
    withScope(kernel, (scope) => {
      const one = post();
      const [seat] = seatAround({ id: 'rim', name: 'rim', post: one, across: [9, 3] }).hosts!();
      const solid = realise(scope, seat!.shape);
      // 9 along is more than the socket's 5 and 1 more; 3 across is less than its 4 and 2 more. A millimetre beyond.
      expect(solid.volume()).toBeCloseTo(11 * 8 - 5.6 * 4.6, 3);
      expect([solid.boundingBox().min[2], solid.boundingBox().max[2]]).toEqual([0, 1]);
      expect(seat!.seat).toEqual([0, 0, 1]);
      expect(scope.keep(solid.intersect(solidOf(scope, one))).volume()).toBeLessThan(1e-9);
    });
  });
});
