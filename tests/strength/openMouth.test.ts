import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../src/solid/vector.ts';
import type { MouthAnswer, MouthQuestion } from '../../src/strength/openMouth.ts';
import { openMouth } from '../../src/strength/openMouth.ts';
import type { ClipProfile } from '../outside/finiteElements/clipProfile.ts';
import { clipProfiles, drawClip } from '../outside/finiteElements/clipProfile.ts';

const open = (question: MouthQuestion): MouthAnswer => {
  const result = openMouth(question);
  if (!result.ok) throw new Error(result.problem.sentence);
  return result;
};
const given = { openEachSide: 0.1, modulus: 1000, poisson: 0.35 };

const family: fc.Arbitrary<ClipProfile> = fc
  .record({
    bar: fc.double({ min: 0.8, max: 4, noNaN: true }),
    mouth: fc.double({ min: 0.6, max: 0.98, noNaN: true }),
    clearance: fc.double({ min: 0.05, max: 0.4, noNaN: true }),
    arm: fc.double({ min: 0.6, max: 3, noNaN: true }),
    slot: fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 3, noNaN: true })),
    flare: fc.double({ min: 0, max: 1, noNaN: true }),
    above: fc.double({ min: 0.6, max: 5, noNaN: true }),
    shape: fc.constantFrom('ring' as const, 'block' as const, 'post' as const),
  })
  .map(({ bar, mouth, clearance, arm, slot, flare, above, shape }) => ({
    name: 'drawn',
    bore: bar + clearance,
    slot,
    mouth: mouth * bar,
    arm,
    flare: mouth * bar + flare * arm,
    above,
    shape,
  }));

describe('openMouth', () => {
  it('solves every clip of the family, alike on both sides', () => {
    let solved = 0;
    fc.assert(
      fc.property(family, (clip) => {
        const o = open({ ...drawClip(clip), ...given });
        const [left, right] = o.solution.forces as [number, number];
        expect(left / right).toBeGreaterThan(0.95);
        expect(left / right).toBeLessThan(1.05);
        expect(o.strain).toBeGreaterThan(0);
        expect(o.strain).toBeLessThan(0.5);
        expect(o.solution.nodes.length / 2).toBeLessThan(2500);
        solved++;
      }),
      { seed: 11, numRuns: 150 },
    );
    expect(solved).toBe(150);
  });

  it.each(clipProfiles.map((clip) => [clip.name, clip] as const))(
    'does not hang on the mesh: %s',
    (_, clip) => {
      const coarse = open({ ...drawClip(clip), ...given });
      const fine = open({ ...drawClip(clip), ...given, thicknessSize: 0.35 / 2 });
      expect(Math.abs(fine.strain / coarse.strain - 1)).toBeLessThan(0.1);
      expect(Math.abs(fine.force / coarse.force - 1)).toBeLessThan(0.05);
      expect(fine.solution.nodes.length).toBeGreaterThan(1.5 * coarse.solution.nodes.length);
    },
  );

  it('gives what its example says: strain 2.7 %, 4.4 N', () => {
    const o = open({ ...drawClip(clipProfiles[0]!), ...given });
    expect(o.strain).toBeCloseTo(0.027, 3);
    expect(o.force).toBeCloseTo(4.4, 1);
  });

  it('is linear in opening and modulus', () => {
    const drawn = drawClip(clipProfiles[0]!);
    const once = open({ ...drawn, ...given });
    const more = open({ ...drawn, ...given, openEachSide: 0.3, modulus: 3000 });
    expect(more.strain / once.strain).toBeCloseTo(3, 9);
    expect(more.force / once.force).toBeCloseTo(9, 9);
    expect(more.stiffness / once.stiffness).toBeCloseTo(3, 9);
    expect(more.strainPerMillimetre / once.strainPerMillimetre).toBeCloseTo(1, 9);
  });

  it('gets stiffer with thicker arms and softer with a longer slot', () => {
    const at = (change: Partial<ClipProfile>) =>
      open({ ...drawClip({ ...clipProfiles[0]!, ...change }), ...given }).force;
    const arms = [0.6, 0.9, 1.3, 1.8].map((arm) => at({ arm }));
    const slots = [0, 0.5, 1.5, 3].map((slot) => at({ slot }));
    for (let i = 1; i < 4; i++) {
      expect(arms[i]).toBeGreaterThan(arms[i - 1]!);
      expect(slots[i]).toBeLessThan(slots[i - 1]!);
    }
  });

  it('says so when the arms are cut off from what is held, or there are none', () => {
    const drawn = drawClip(clipProfiles[0]!);
    const cases = [
      [{ ...drawn, contours: [] }, 'empty'],
      [{ ...drawn, fixedAbove: -5 }, 'empty'],
      [{ ...drawn, fixedAbove: 50 }, 'not-held'],
      [
        {
          ...drawn,
          lips: [
            [-9, 0],
            [9, 0],
          ] as [Vec2, Vec2],
        },
        'push-off-profile',
      ],
      [
        {
          ...drawn,
          lips: [
            [0, 0],
            [0, 0],
          ] as [Vec2, Vec2],
        },
        'value',
      ],
    ] as const;
    for (const [question, kind] of cases) {
      const result = openMouth({ ...question, ...given });
      expect(result.ok ? 'ok' : result.problem.kind).toBe(kind);
    }
    const lugs = [-3, 1].map((x): Vec2[] => [
      [x, -2],
      [x + 2, -2],
      [x + 2, 0],
      [x, 0],
    ]);
    const roof: Vec2[] = [
      [-3, 1],
      [3, 1],
      [3, 4],
      [-3, 4],
    ];
    const loose = openMouth({
      contours: [...lugs, roof],
      lips: [
        [-1, -1],
        [1, -1],
      ],
      fixedAbove: 3,
      ...given,
    });
    expect(loose.ok ? 'ok' : loose.problem.kind).toBe('push-not-held');
  });
});
