import fc from 'fast-check';
import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../src/solid/vector.ts';
import { adhesiveArea } from '../../src/strength/adhesiveArea.ts';
import { unknownCentre, weighedCentre } from '../../src/strength/centreOfGravity.ts';
import { contactPressure } from '../../src/strength/contactPressure.ts';
import { riserStability, tiltAngle } from '../../src/strength/riserStability.ts';
import { rockingGap } from '../../src/strength/rockingGap.ts';
import type { SpringFoot } from '../../src/strength/springFeet.ts';
import { settleFeet } from '../../src/strength/springFeet.ts';
import { nearestEdge, supportPolygon } from '../../src/strength/supportPolygon.ts';
import { threeFeetLoads } from '../../src/strength/threeFeet.ts';
import { tipping } from '../../src/strength/tipping.ts';
import { footLoads } from '../../src/strength/worstStance.ts';

const desk: Vec2[] = [
  [0, 0],
  [300, 0],
  [300, 200],
  [0, 200],
];
const sure = (x: number, y: number) => ({ at: [x, y] as Vec2, doubt: 0 });
const total = (loads: readonly number[]) => loads.reduce((sum, f) => sum + f, 0);
const arm = (feet: readonly Readonly<Vec2>[], loads: readonly number[], c: 0 | 1) =>
  loads.reduce((sum, f, i) => sum + f * feet[i]![c], 0);

/** Feet anywhere on a machine, with a centre of gravity made of their own mixture, so that it lies among them. */
const machines = fc
  .record({
    feet: fc.array(
      fc.tuple(fc.double({ min: 0, max: 400, noNaN: true }), fc.double({ min: 0, max: 300, noNaN: true })),
      { minLength: 3, maxLength: 7 },
    ),
    parts: fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 7, maxLength: 7 }),
    weight: fc.double({ min: 1, max: 200, noNaN: true }),
    heights: fc.array(fc.double({ min: 4, max: 7, noNaN: true }), { minLength: 7, maxLength: 7 }),
    stiffness: fc.array(fc.double({ min: 5, max: 500, noNaN: true }), { minLength: 7, maxLength: 7 }),
  })
  .filter(({ feet }) => {
    // Some room between the feet: a machine stands on an area.
    try {
      const [x, y] = [feet.map((p) => p[0]), feet.map((p) => p[1])];
      const middle: Vec2 = [total(x) / feet.length, total(y) / feet.length];
      return nearestEdge(feet, middle).inside > 5;
    } catch {
      return false;
    }
  })
  .map(({ feet, parts, ...rest }) => {
    const used = parts.slice(0, feet.length);
    const at: Vec2 = [arm(feet, used, 0) / total(used), arm(feet, used, 1) / total(used)];
    return { feet: feet as Vec2[], at, ...rest };
  });

describe('three feet', () => {
  it('balance by hand: 20 N at (2, 3) on (0, 0), (10, 0), (0, 10) is 10, 4, 6 N', () => {
    const found = threeFeetLoads(
      [
        [0, 0],
        [10, 0],
        [0, 10],
      ],
      [2, 3],
      20,
    );
    for (const [i, f] of [10, 4, 6].entries()) expect(found[i]).toBeCloseTo(f, 12);
  });

  it('carry a third each at their middle, all of it under the centre, half each on an edge', () => {
    const three: [Vec2, Vec2, Vec2] = [
      [0, 0],
      [12, 0],
      [3, 9],
    ];
    for (const f of threeFeetLoads(three, [5, 3], 30)) expect(f).toBeCloseTo(10, 12);
    expect(threeFeetLoads(three, [12, 0], 30)).toEqual([0, 30, 0]);
    expect(threeFeetLoads(three, [6, 0], 30)[2]).toBeCloseTo(0, 12);
  });

  it('are refused on one line and beside the centre of gravity', () => {
    const line: [Vec2, Vec2, Vec2] = [
      [0, 0],
      [5, 5],
      [10, 10],
    ];
    expect(() => threeFeetLoads(line, [5, 5], 1)).toThrow(
      'three feet require positions that are not on one line',
    );
    expect(() =>
      threeFeetLoads(
        [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
        [1, 1],
        1,
      ),
    ).toThrow('a centre of gravity between the feet (given -1)');
  });
});

describe('worst stance of four and more', () => {
  it('a table with its weight in the middle stands on a diagonal at worst: half and half', () => {
    const { most, least } = footLoads(desk, sure(150, 100), 40);
    for (const f of most) expect(f).toBeCloseTo(20, 9);
    for (const f of least) expect(f).toBeCloseTo(0, 9);
  });

  it('off the middle, by hand: centre at (180, 100) of 300 x 200', () => {
    // On feet 0, 1, 2: shares 1 - x/300, x/300 - y/200, y/200; on 1, 2, 3: 1 - y/200, x/300 + y/200 - 1, 1 - x/300; and mirrored.
    const { most } = footLoads(desk, sure(180, 100), 100);
    for (const [i, f] of [40, 50, 50, 40].entries()) expect(most[i]).toBeCloseTo(f, 9);
  });

  it('three feet have no worst: most and least are statics; with doubt they part', () => {
    const three = desk.slice(0, 3) as [Vec2, Vec2, Vec2];
    const exact = threeFeetLoads(three, [220, 60], 50);
    const { most, least } = footLoads(three, sure(220, 60), 50);
    for (const i of [0, 1, 2]) {
      expect(most[i]).toBeCloseTo(exact[i]!, 9);
      expect(least[i]).toBeCloseTo(exact[i]!, 9);
    }
    const unsure = footLoads(three, { at: [220, 60], doubt: 10 }, 50);
    // 10 mm straight towards foot 2 gives it 10 / 200 more.
    expect(unsure.most[2]).toBeCloseTo(exact[2] + 2.5, 9);
    expect(unsure.least[2]).toBeCloseTo(exact[2] - 2.5, 9);
  });

  it('bounds every way in which springy feet of any heights carry, and any place within the doubt', () => {
    let [tight, hanging] = [0, 0];
    fc.assert(
      fc.property(
        machines,
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        ({ feet, at, weight, heights, stiffness }, way) => {
          const springs = feet.map((p, i) => ({ at: p, stiffness: stiffness[i]!, height: heights[i]! }));
          const { most, least } = footLoads(feet, { at, doubt: 0 }, weight);
          const { loads } = settleFeet(springs, at, weight);
          const room = 0.8 * nearestEdge(feet, at).inside;
          const wide = footLoads(feet, { at, doubt: room }, weight);
          const moved = settleFeet(
            springs,
            [at[0] + room * Math.cos(way), at[1] + room * Math.sin(way)],
            weight,
          );
          for (const i of feet.keys()) {
            expect(loads[i]).toBeLessThanOrEqual(most[i]! + 1e-6 * weight);
            expect(loads[i]).toBeGreaterThanOrEqual(least[i]! - 1e-6 * weight);
            expect(moved.loads[i]).toBeLessThanOrEqual(wide.most[i]! + 1e-6 * weight);
            expect(moved.loads[i]).toBeGreaterThanOrEqual(wide.least[i]! - 1e-6 * weight);
            if (loads[i] === 0) hanging++;
            if (feet.length > 3 && loads[i]! > 0.95 * most[i]!) tight++;
          }
        },
      ),
      { seed: 21, numRuns: 400 },
    );
    expect(tight).toBeGreaterThan(50);
    expect(hanging).toBeGreaterThan(50);
  });
});

/** Every set of carrying feet tried: the one whose feet all push and whose others all hang is the answer. */
function settleByTrying(
  feet: readonly SpringFoot[],
  centre: Readonly<Vec2>,
  weight: number,
): number[] | null {
  for (let set = 0; set < 1 << feet.length; set++) {
    const carrying = feet.filter((_, i) => set & (1 << i));
    if (carrying.length < 3) continue;
    const matrix = Matrix.zeros(3, 3);
    const right = [-weight, -weight * centre[0], -weight * centre[1]];
    for (const { at, stiffness, height } of carrying) {
      const row = [1, at[0], at[1]];
      for (let a = 0; a < 3; a++) {
        right[a] = right[a]! + stiffness * height * row[a]!;
        for (let b = 0; b < 3; b++) matrix.set(a, b, matrix.get(a, b) + stiffness * row[a]! * row[b]!);
      }
    }
    let pose: number[];
    try {
      pose = solve(matrix, Matrix.columnVector(right)).to1DArray();
    } catch {
      continue;
    }
    const loads = feet.map(
      (f) => f.stiffness * (f.height - pose[0]! - pose[1]! * f.at[0] - pose[2]! * f.at[1]),
    );
    const fits = loads.every((f, i) => (set & (1 << i) ? f >= -1e-7 * weight : f <= 1e-7 * weight));
    // Feet nearly on one line solve to anything.
    const carried = loads.filter((_, i) => set & (1 << i));
    const balanced = Math.abs(total(carried) / weight - 1) < 1e-6;
    if (fits && balanced) return loads.map((f) => Math.max(0, f));
  }
  return null;
}

describe('springy feet', () => {
  it('four alike under the middle carry a quarter each; one 0.5 mm short lightens its diagonal', () => {
    const feet = (heights: number[]) => desk.map((at, i) => ({ at, stiffness: 50, height: heights[i]! }));
    for (const f of settleFeet(feet([6, 6, 6, 6]), [150, 100], 40).loads) expect(f).toBeCloseTo(10, 9);
    // Of the four-feet warp of 0.5 mm each foot takes a quarter: 50 x 0.125 N more on one diagonal, less on the other.
    const { loads, gaps } = settleFeet(feet([6, 6, 6, 5.5]), [150, 100], 40);
    for (const [i, f] of [16.25, 3.75, 16.25, 3.75].entries()) expect(loads[i]).toBeCloseTo(f, 9);
    expect(gaps).toEqual([0, 0, 0, 0]);
  });

  it('a foot too short to reach carries nothing', () => {
    const feet = desk.map((at, i) => ({ at, stiffness: 50, height: i === 3 ? 4 : 6 }));
    const { loads, gaps } = settleFeet(feet, [170, 80], 40);
    expect(loads[3]).toBe(0);
    expect(gaps[3]).toBeGreaterThan(1);
    const three = threeFeetLoads([desk[0]!, desk[1]!, desk[2]!], [170, 80], 40);
    for (const i of [0, 1, 2]) expect(loads[i]).toBeCloseTo(three[i]!, 9);
  });

  it('settle as trying every set of feet finds, in balance of force and moments', () => {
    let open = 0;
    fc.assert(
      fc.property(machines, ({ feet, at, weight, heights, stiffness }) => {
        const springs = feet.map((p, i) => ({ at: p, stiffness: stiffness[i]!, height: heights[i]! }));
        const { loads, gaps } = settleFeet(springs, at, weight);
        const tried = settleByTrying(springs, at, weight)!;
        expect(tried).not.toBeNull();
        for (const i of feet.keys()) {
          expect(Math.abs(loads[i]! - tried[i]!)).toBeLessThan(1e-6 * weight);
          expect(loads[i]! * gaps[i]!).toBe(0);
          if (loads[i] === 0) open++;
        }
        expect(total(loads) / weight).toBeCloseTo(1, 7);
        expect(arm(feet, loads, 0) / weight).toBeCloseTo(at[0], 5);
        expect(arm(feet, loads, 1) / weight).toBeCloseTo(at[1], 5);
      }),
      { seed: 22, numRuns: 500 },
    );
    expect(open).toBeGreaterThan(100);
  });
});

describe('rocking', () => {
  it('four feet, one 0.3 mm short: 0.3 mm under it; the same when its opposite is', () => {
    const { gap, foot, stances } = rockingGap(desk, [6, 6, 6, 5.7], sure(160, 95));
    expect(gap).toBeCloseTo(0.3, 12);
    expect(foot).toBe(3);
    expect(stances.map((s) => s.carrying)).toEqual([[0, 1, 2]]);
    // Long feet 0 and 2 carry; which third touches is up to the centre of gravity.
    expect(rockingGap(desk, [6.2, 6, 6, 6], sure(160, 95)).gap).toBeCloseTo(0.2, 12);
  });

  it('an unknown centre leaves both stances of a warped four, an even four rocks by nothing', () => {
    const unsure = rockingGap(desk, [6, 5.9, 6, 5.8], unknownCentre(desk));
    expect(unsure.stances.map((s) => s.carrying)).toEqual([
      [0, 1, 2],
      [0, 2, 3],
    ]);
    expect(unsure.gap).toBeCloseTo(0.3, 12);
    expect(rockingGap(desk, [6, 6, 6, 6], unknownCentre(desk)).gap).toBe(0);
    expect(rockingGap(desk, [6, 6.7, 7.7, 7], sure(140, 90)).foot).toBeNull();
  });

  it('three feet never rock, and a short foot amid others hangs without rocking', () => {
    expect(rockingGap(desk.slice(0, 3), [4, 6, 9], sure(200, 60)).gap).toBe(0);
    const five: Vec2[] = [...desk, [150, 60]];
    const { gap, stances } = rockingGap(five, [6, 6, 6, 6, 5], sure(160, 70));
    expect(gap).toBe(0);
    expect(stances.some((s) => s.gaps[4]! > 0.99)).toBe(true);
  });

  it('stands as very stiff springs do', () => {
    fc.assert(
      fc.property(machines, ({ feet, at, weight, heights }) => {
        const springs = feet.map((p, i) => ({ at: p, stiffness: 1e7 * weight, height: heights[i]! }));
        const { gaps } = settleFeet(springs, at, weight);
        const { stances } = rockingGap(feet, heights.slice(0, feet.length), { at, doubt: 0 });
        expect(stances.length).toBeGreaterThan(0);
        const near = stances.some((s) => s.gaps.every((g, i) => Math.abs(g - gaps[i]!) < 1e-3));
        expect(near).toBe(true);
      }),
      { seed: 23, numRuns: 400 },
    );
  });
});

describe('tipping and tilting', () => {
  it('goes over at 45 degrees when as far inside as high, sooner with doubt, over the near edge', () => {
    const found = tipping(desk, sure(150, 60), 60);
    expect(found.angle).toBeCloseTo(Math.PI / 4, 12);
    expect(found.over).toEqual([0, 1]);
    expect(found.push).toBeCloseTo(1, 12);
    expect(tipping(desk, { at: [150, 60], doubt: 15 }, 60).angle).toBeCloseTo(Math.atan(0.75), 12);
    expect(tipping(desk, sure(150, -5), 60).angle).toBeLessThan(0);
  });

  it('is the slope at which the weight of a turned machine passes its edge', () => {
    fc.assert(
      fc.property(machines, fc.double({ min: 10, max: 300, noNaN: true }), ({ feet, at }, height) => {
        const { angle } = tipping(feet, { at, doubt: 0 }, height);
        // Lean the machine in any direction by a little less: the weight's foot on the base stays inside; a little more: some direction goes.
        const foot = (slope: number, way: number): Vec2 => [
          at[0] + height * Math.tan(slope) * Math.cos(way),
          at[1] + height * Math.tan(slope) * Math.sin(way),
        ];
        const ways = Array.from({ length: 720 }, (_, k) => (k * Math.PI) / 360);
        expect(ways.every((w) => nearestEdge(feet, foot(angle * 0.999, w)).inside > 0)).toBe(true);
        expect(ways.some((w) => nearestEdge(feet, foot(angle + 0.001, w)).inside < 0)).toBe(true);
      }),
      { seed: 24, numRuns: 50 },
    );
  });

  it('tilts by the arc sine of rise over distance along the case', () => {
    expect(tiltAngle(20, 200)).toBeCloseTo((5.739 * Math.PI) / 180, 5);
    expect(tiltAngle(-20, 200)).toBe(-tiltAngle(20, 200));
    expect(() => tiltAngle(200, 200)).toThrow('tilt requires rise below 200 mm either way (given 200)');
  });

  it('the support polygon leaves out feet amid others and on an edge', () => {
    expect(supportPolygon([...desk, [150, 0], [150, 100]]).sort()).toEqual([0, 1, 2, 3]);
    expect(() =>
      supportPolygon([
        [0, 0],
        [1, 1],
        [2, 2],
        [3, 3],
      ]),
    ).toThrow('stand requires feet that are not on one line');
    expect(() => supportPolygon(desk.slice(0, 2))).toThrow('stand requires feet 3 or more (given 2)');
  });
});

describe('riser', () => {
  const riser = {
    slope: 0.1,
    height: 20,
    base: 30,
    loadAt: 15,
    load: 20,
    push: 0,
    frictionTop: 0.5,
    frictionDesk: 0.4,
  };

  it('holds while the tangent of its slope is at most the friction', () => {
    for (let slope = 0; slope < 1.2; slope += 0.05) {
      const found = riserStability({ ...riser, slope });
      expect(found.holdsCase).toBe(Math.tan(slope) <= 0.5);
      expect(found.slideAngle).toBeCloseTo(Math.atan(0.5), 12);
    }
  });

  it('on a slick top pushes out what friction does not hold: the force resolved along and across the slope', () => {
    for (const [slope, mu] of [
      [0.3, 0],
      [0.5, 0.2],
      [1.1, 0.4],
    ] as const) {
      // Normal N and friction mu N up the slope on the case; level over upright part.
      const level = Math.sin(slope) - mu * Math.cos(slope);
      const upright = Math.cos(slope) + mu * Math.sin(slope);
      const found = riserStability({ ...riser, slope, frictionTop: mu });
      expect(found.deskFriction).toBeCloseTo(level / upright, 12);
      expect(found.holdsDesk).toBe(level / upright <= 0.4);
    }
  });

  it('tips when the push times its height outweighs the load times its lever', () => {
    expect(riserStability(riser).tippingPush).toBeCloseTo(15, 12);
    expect(riserStability({ ...riser, push: 14.9 }).tips).toBe(false);
    expect(riserStability({ ...riser, push: 15.1 }).tips).toBe(true);
    expect(riserStability({ ...riser, push: 9 }).holdsDesk).toBe(false);
    expect(riserStability({ ...riser, push: 7.9 }).holdsDesk).toBe(true);
    expect(riserStability({ ...riser, loadAt: 30, slope: 0.3, frictionTop: 0 }).tips).toBe(true);
  });
});

describe('centre of gravity, contact, tape', () => {
  it('weighs the centre: the mean of the feet by what they carry', () => {
    expect(
      weighedCentre(
        [
          [0, 0],
          [300, 0],
          [150, 200],
        ],
        [10, 10, 20],
      ),
    ).toEqual({ at: [150, 100], doubt: 0 });
    fc.assert(
      fc.property(machines, ({ feet, at, weight, heights, stiffness }) => {
        const springs = feet.map((p, i) => ({ at: p, stiffness: stiffness[i]!, height: heights[i]! }));
        const found = weighedCentre(feet, settleFeet(springs, at, weight).loads);
        expect(found.at[0]).toBeCloseTo(at[0], 4);
        expect(found.at[1]).toBeCloseTo(at[1], 4);
      }),
      { seed: 25, numRuns: 50 },
    );
  });

  it('is in the middle with 15 % of the short side of doubt when unknown', () => {
    expect(unknownCentre(desk)).toEqual({ at: [150, 100], doubt: 30 });
  });

  it('spreads a load over its area, and asks for tape by the weaker of its two limits', () => {
    expect(contactPressure(20, 200)).toBeCloseTo(0.1, 12);
    expect(adhesiveArea({ lasting: 0, momentary: 5 })).toBeCloseTo(500, 9);
    expect(adhesiveArea({ lasting: 1, momentary: 5 })).toBeCloseTo(1000, 9);
    expect(adhesiveArea({ lasting: 0, momentary: 0 })).toBe(0);
  });

  it.each([
    ['contact requires area above 0 (given 0)', () => contactPressure(1, 0)],
    ['tape requires lasting 0 N or above (given -1)', () => adhesiveArea({ lasting: -1, momentary: 0 })],
    ['weighing requires readings for all 4 feet (given 1)', () => weighedCentre(desk, [1])],
    ['weighing requires total above 0 (given 0)', () => weighedCentre(desk, [0, 0, 0, 0])],
    [
      'feet requires centre of gravity 0 mm or more inside the outline of the feet (given -5)',
      () => footLoads(desk, sure(-5, 50), 1),
    ],
    ['feet requires weight 0 N or above (given -1)', () => footLoads(desk, sure(50, 50), -1)],
    [
      'foot requires stiffness above 0 (given 0)',
      () =>
        settleFeet(
          desk.map((at) => ({ at, stiffness: 0, height: 1 })),
          [50, 50],
          1,
        ),
    ],
    ['rocking requires heights for all 4 feet (given 3)', () => rockingGap(desk, [1, 2, 3], sure(50, 50))],
    ['tipping requires height of centre of gravity above 0 (given 0)', () => tipping(desk, sure(50, 50), 0)],
    [
      'stand requires positions that are finite numbers of mm (given NaN)',
      () => supportPolygon([...desk, [Number.NaN, 0]]),
    ],
  ])('%s', (sentence, call) => {
    expect(call).toThrow(new RangeError(sentence));
  });
});
