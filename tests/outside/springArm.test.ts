import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Contour, Vec2 } from '../../src/solid/vector.ts';
import { armFlexibility } from '../../src/strength/armFlexibility.ts';
import { filletConcentration } from '../../src/strength/filletConcentration.ts';
import { jointForce } from '../../src/strength/jointForce.ts';
import type { SplitStem } from '../../src/strength/legSection.ts';
import { legSection } from '../../src/strength/legSection.ts';
import { solvePlaneStress } from '../../src/strength/planeStress.ts';
import type { BarbedStem } from '../../src/strength/splitStem.ts';
import { barbedStem } from '../../src/strength/splitStem.ts';
import type { SpringArm } from '../../src/strength/springArm.ts';
import { springArm } from '../../src/strength/springArm.ts';

const degrees = Math.PI / 180;
const arm: SpringArm = {
  length: 12,
  thickness: 1.2,
  width: 5,
  modulus: 2000,
  poisson: 0.35,
  insertionAngle: 30 * degrees,
  retentionAngle: 60 * degrees,
  friction: 0.3,
};

describe('Bayer MaterialScience, Snap-Fit Joints for Plastics', () => {
  it('calculation example I: l 19, b 9.5, h 3.28 to half, y 2.4, E_s 1815, mu 0.6, 30 degrees: 2 %, 32.5 N, 58.5 N (from memory)', () => {
    const rigid = {
      ...arm,
      length: 19,
      width: 9.5,
      thickness: 3.28,
      tipThickness: 1.64,
      modulus: 1815,
      friction: 0.6,
    };
    const bending = armFlexibility({ ...rigid, root: 'rigid' }, 1815, 0.35);
    // The guide reckons with bending alone.
    const force = 2.4 / bending.bending;
    expect(force).toBeCloseTo(32.5, 0.5);
    expect(force * bending.strain).toBeCloseTo(0.02, 4);
    expect(jointForce(force, 0.6, 30 * degrees).force).toBeCloseTo(58.5, -0.3);
    // A wall that gives and shear take a third of that: the guide is stiff for an arm of l/h 5.8.
    const [real] = springArm(rigid, [2.4]);
    expect(real!.force / force).toBeGreaterThan(0.7);
    expect(real!.force / force).toBeLessThan(0.9);
  });

  it('P = b h^2 / 6 E strain / l and strain = 1.5 h y / l^2 for a rigid root', () => {
    const { bending, strain } = armFlexibility({ ...arm, root: 'rigid' }, 2000, 0.35);
    expect(1 / bending).toBeCloseTo(2.5, 9);
    expect(strain / bending).toBeCloseTo(0.0125, 9);
  });

  it.each([
    [1, 0.67],
    [0.5, 1.09],
  ])('table 1: tip %d of the root thickness, K %d', (tip, printed) => {
    const { bending, strain } = armFlexibility(
      { ...arm, tipThickness: 1.2 * tip, root: 'rigid' },
      2000,
      0.35,
    );
    expect((bending * 1.2) / (strain * 144)).toBeCloseTo(printed, 2);
  });
});

it('half of the root thickness is the taper up to which the root is worst; below, the section at tip / (root - tip)', () => {
  const strainAt = (tipThickness: number) => armFlexibility({ ...arm, tipThickness }, 2000, 0.35);
  expect(strainAt(0.6).strainAt).toBe(0);
  const { strain, strainAt: where } = strainAt(0.3);
  let worst = 0;
  for (let k = 0; k <= 1000; k++) {
    const x = (12 * k) / 1000;
    const thickness = 0.3 + 0.9 * (k / 1000);
    worst = Math.max(worst, (6 * x) / (2000 * 5 * thickness ** 2));
  }
  expect(strain / worst).toBeCloseTo(1, 5);
  expect(where).toBeCloseTo(2 / 3, 12);
});

/** An arm on a block or flange, held at its sides `out` mm away, its tip pushed 1 mm, by plane finite elements of this project. */
function byElements(slender: number, ratio: number, fillet: number, deep = 10, out = 10) {
  const h = 2;
  const [length, tip, r] = [slender * h, ratio * h, fillet * h];
  const quarter = Array.from({ length: 25 }, (_, i) => (Math.PI * i) / 48);
  const right = quarter.map((a): Vec2 => [h + r - r * Math.sin(a), r - r * Math.cos(a)]);
  const left = quarter.map((a): Vec2 => [-r + r * Math.cos(a), r - r * Math.sin(a)]);
  const contour: Contour = [
    [-out, -deep],
    [h + out, -deep],
    [h + out, 0],
    ...right,
    [h, length],
    [h - tip, length],
    ...left,
    [-out, 0],
  ];
  const solved = solvePlaneStress({
    contours: [contour],
    modulus: 1000,
    poisson: 0.35,
    // Five thicknesses down a block is held below as well; a flange only at its ends.
    fixed: ([x, y]) => (deep >= 10 && y < -deep + 1e-9) || x < -out + 1e-9 || x > h + out - 1e-9,
    prescribed: [{ at: [h, length - 0.001], by: [-1, 0] }],
    strainAway: 0.8 * h,
    patch: tip / 4,
    thicknessSize: 0.12,
  });
  if (!solved.ok) throw new Error(solved.problem.sentence);
  return { force: solved.forces[0]!, strain: solved.tension.strain };
}

describe('against plane finite elements', () => {
  const cases = [1, 0.5].flatMap((ratio) =>
    [0.1, 0.2, 0.4, 0.7, 1].flatMap((fillet) =>
      [2, 3, 5, 8, 15]
        .filter((s) => s - 0.65 * fillet >= 1.5)
        .map((slender) => [slender, ratio, fillet] as const),
    ),
  );

  it.each(cases)('l/h %d, tip %d h, fillet %d h: force and peak strain', (slender, ratio, fillet) => {
    const exact = byElements(slender, ratio, fillet);
    const [found] = springArm(
      {
        ...arm,
        thickness: 2,
        length: 2 * slender,
        tipThickness: 2 * ratio,
        fillet: 2 * fillet,
        width: 1,
        modulus: 1000,
      },
      [1],
    );
    expect(found!.force / exact.force).toBeGreaterThan(0.89);
    expect(found!.force / exact.force).toBeLessThan(1.09);
    expect(found!.peakStrain / exact.strain).toBeGreaterThan(0.9);
    expect(found!.peakStrain / exact.strain).toBeLessThan(1.13);
  });
});

describe('an arm on a flange', () => {
  const flanges = [0.75, 1, 1.5, 2, 3].flatMap((thick) =>
    [2, 6].flatMap((out) => [3, 4, 8, 15].map((slender) => [thick, out, slender] as const)),
  );

  it.each(flanges)('%d h thick, held %d h away, l/h %d', (thick, out, slender) => {
    const exact = byElements(slender, 1, 0.4, 2 * thick, 2 * out);
    const shape = { ...arm, thickness: 2, length: 2 * slender, fillet: 0.8, width: 1, modulus: 1000 };
    const [found] = springArm({ ...shape, flange: { thickness: 2 * thick, reach: 2 * out } }, [1]);
    expect(found!.force / exact.force).toBeGreaterThan(0.89);
    expect(found!.force / exact.force).toBeLessThan(1.15);
    expect(found!.peakStrain / exact.strain).toBeGreaterThan(0.87);
    expect(found!.peakStrain / exact.strain).toBeLessThan(1.15);
    if (thick >= 2) expect(springArm(shape, [1])[0]!.force / exact.force).toBeLessThan(1.1);
    if (thick === 0.75 && out === 6 && slender === 3) {
      expect(springArm(shape, [1])[0]!.force / exact.force).toBeGreaterThan(2);
    }
  });
});

describe('the relation with a rigid root', () => {
  it.each([
    [2, 0.6, 1],
    [6, 0.15, 0.3],
    [15, 0.02, 0.12],
  ])('is too stiff at l/h %d, by %d to %d', (slender, from, to) => {
    const exact = byElements(slender, 1, 0.1);
    const shape = { length: 2 * slender, thickness: 2, width: 1 };
    const rigid = 1 / armFlexibility({ ...shape, root: 'rigid' }, 1000, 0.35).bending;
    expect(rigid / exact.force - 1).toBeGreaterThan(from);
    expect(rigid / exact.force - 1).toBeLessThan(to);
  });
});

describe('arm over its range', () => {
  it('grows with deflection, is 0 at 0, and locks rather than turning negative', () => {
    const [none, some, twice] = springArm(arm, [0, 0.4, 0.8]);
    expect([none!.force, none!.strain, none!.pushIn.force, none!.pullOut.force]).toEqual([0, 0, 0, 0]);
    expect(twice!.force).toBeCloseTo(2 * some!.force, 12);
    expect(twice!.peakStrain).toBeCloseTo(2 * some!.peakStrain, 12);
    let locked = 0;
    for (let angle = 0; angle <= 90; angle += 3) {
      for (const friction of [0, 0.2, 0.5, 1]) {
        const [state] = springArm({ ...arm, retentionAngle: angle * degrees, friction }, [0.5]);
        const { force, locks } = state!.pullOut;
        expect(locks).toBe(force === null);
        // The flank and the angle of friction together reach a right angle.
        const together = angle * degrees + Math.atan(friction);
        if (Math.abs(together - Math.PI / 2) > 1e-9) expect(locks).toBe(together > Math.PI / 2);
        if (force === null) locked++;
        else expect(force).toBeGreaterThanOrEqual(0);
      }
    }
    expect(locked).toBeGreaterThan(20);
  });

  it('a thicker, shorter, stiffer or broader arm never presses less', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 30, noNaN: true }),
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (length, share, taper, round) => {
          const thickness = share * length;
          const base = {
            ...arm,
            length,
            thickness,
            tipThickness: taper * thickness,
            fillet: round * thickness,
          };
          const force = (change: Partial<SpringArm>) => springArm({ ...base, ...change }, [0.5])[0]!.force;
          const found = force({});
          expect(found).toBeGreaterThan(0);
          expect(force({ length: 1.05 * length })).toBeLessThan(found);
          expect(force({ thickness: thickness * 1.01 })).toBeGreaterThan(found);
          expect(force({ modulus: 2100 })).toBeGreaterThan(found);
          expect(force({ width: 6 })).toBeGreaterThan(found);
          expect(force({ root: 'rigid' })).toBeGreaterThan(found);
          const [state] = springArm(base, [0.5]);
          expect(state!.peakStrain).toBeGreaterThanOrEqual(state!.strain);
        },
      ),
      { seed: 31, numRuns: 300 },
    );
  });

  it.each([
    ['spring arm requires length 1.8 mm or above, for its thickness (given 1.7)', { length: 1.7 }],
    ['spring arm requires width above 0 (given 0)', { width: 0 }],
    ["spring arm requires tipThickness 0.3 to 1.2 mm, the root's (given 2)", { tipThickness: 2 }],
    ['spring arm requires fillet 0 to 1.2 mm, the thickness (given 2)', { fillet: 2 }],
    ['spring arm requires poisson 0 to 0.5 (given 0.6)', { poisson: 0.6 }],
    ['spring arm requires friction 0 or above (given -0.1)', { friction: -0.1 }],
    ['spring arm requires retentionAngle 0 to pi/2 (given 2)', { retentionAngle: 2 }],
  ])('%s', (sentence, change) => {
    expect(() => springArm({ ...arm, ...change }, [0.5])).toThrow(new RangeError(sentence));
  });

  it('refuses a deflection below 0 and a fillet of no size', () => {
    expect(() => springArm(arm, [-0.1])).toThrow('spring arm requires deflection 0 mm or above (given -0.1)');
    expect(() => filletConcentration(-1, 1)).toThrow('fillet requires radius 0 mm or above (given -1)');
    expect(filletConcentration(0, 2)).toBe(filletConcentration(0.2, 2));
  });

  it("keeps to Peterson's chart within 6 % where arms have their fillets: 1.96, 1.55, 1.23 at r/h 0.1, 0.2, 0.4 (Norton's fit, from memory)", () => {
    for (const [share, printed] of [
      [0.1, 1.955],
      [0.2, 1.551],
      [0.4, 1.231],
    ] as const) {
      expect(Math.abs(filletConcentration(2 * share, 2) / printed - 1)).toBeLessThan(0.06);
    }
  });
});

/** Section by counting points of a fine grid. */
function byCounting({ diameter, bore = 0, legs, slot }: SplitStem) {
  const half = Math.PI / legs;
  const n = 1600;
  const cell = diameter / n;
  let [area, first, second, least] = [0, 0, 0, Infinity];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const [x, y] = [(i + 0.5) * cell - diameter / 2, (j + 0.5) * cell - diameter / 2];
      const r = Math.hypot(x, y);
      // Distance from the nearer slot's middle line, on the leg's side of it.
      const clear = x * Math.sin(half) - Math.abs(y) * Math.cos(half);
      if (r > diameter / 2 || r < bore / 2 || clear < slot / 2) continue;
      area += cell ** 2;
      first += x * cell ** 2;
      second += x * x * cell ** 2;
      least = Math.min(least, x);
    }
  }
  const centroid = first / area;
  return { area, centroid, inertia: second - area * centroid ** 2, inner: centroid - least };
}

describe('leg of a split stem', () => {
  it.each([
    [2, 0, 1],
    [2, 3, 1],
    [2, 0.5, 1],
    [3, 0, 0.8],
    [3, 3.6, 0.8],
    [4, 0, 1.2],
    [4, 2.4, 0.6],
    [6, 3, 0.5],
  ])('%d legs, bore %d, slot %d: closed form and counted points', (legs, bore, slot) => {
    const stem = { diameter: 6, bore, legs, slot };
    const [closed, counted] = [legSection(stem), byCounting(stem)];
    expect(closed.area / counted.area).toBeCloseTo(1, 2.3);
    expect(closed.centroid / counted.centroid).toBeCloseTo(1, 2.5);
    expect(closed.inertia / counted.inertia).toBeCloseTo(1, 2);
    expect(Math.abs(closed.inner - counted.inner)).toBeLessThan(0.02);
    expect(closed.outer).toBeCloseTo(3 - closed.centroid, 12);
  });

  it("half and quarter of a round bar: Roark's table of sections (0.1098 R^4, 4 R / (3 pi); sector by its integral)", () => {
    const half = legSection({ diameter: 2, legs: 2, slot: 1e-9 });
    expect(half.inertia).toBeCloseTo(0.1098, 4);
    expect(half.centroid).toBeCloseTo(4 / (3 * Math.PI), 6);
    const quarter = legSection({ diameter: 2, legs: 4, slot: 1e-9 });
    const a = Math.PI / 4;
    const centroid = (2 * Math.sin(a)) / (3 * a);
    expect(quarter.centroid).toBeCloseTo(centroid, 6);
    expect(quarter.inertia).toBeCloseTo((a + Math.sin(a) * Math.cos(a)) / 4 - a * centroid ** 2, 6);
  });

  it('legs that move in by its room touch', () => {
    // Two legs each cross half the slot; of four, the corners at the axis meet after slot / sqrt 2.
    expect(legSection({ diameter: 6, legs: 2, slot: 1 }).room).toBeCloseTo(0.5, 12);
    expect(legSection({ diameter: 6, legs: 4, slot: 1 }).room).toBeCloseTo(Math.SQRT1_2, 12);
  });
});

describe('barbed stem', () => {
  const stem: BarbedStem = {
    diameter: 5.6,
    legs: 2,
    slot: 1.6,
    length: 9,
    barbDiameter: 6.8,
    fillet: 0.5,
    modulus: 1800,
    poisson: 0.38,
    insertionAngle: 25 * degrees,
    retentionAngle: 50 * degrees,
    friction: 0.35,
  };

  it('a slender leg is a cantilever: F = 3 E I y / l^3, strain = 3 c y / l^2', () => {
    const section = legSection(stem);
    const [state] = barbedStem({ ...stem, length: 900, fillet: 0 }, [6]);
    expect(state!.legForce / ((3 * 1800 * section.inertia * 0.4) / 900 ** 3)).toBeCloseTo(1, 1.9);
    expect(state!.strain / ((3 * section.outer * 0.4) / 900 ** 2)).toBeCloseTo(1, 1.9);
    expect(state!.innerStrain / state!.strain).toBeCloseTo(section.inner / section.outer, 12);
  });

  it('over a range of holes: a wider hole asks less, one as wide as the barb nothing, narrow ones make legs meet', () => {
    const states = barbedStem(stem, [5.1, 5.5, 5.9, 6.3, 6.7, 6.8, 7]);
    for (const [i, state] of states.entries()) {
      expect(state.deflection).toBeCloseTo(Math.max(0, (6.8 - state.hole) / 2), 12);
      expect(state.legsMeet).toBe(state.hole < 6.8 - 1.6);
      expect(state.stemJams).toBe(state.hole < 5.6);
      if (i > 0 && state.hole <= 6.8) expect(state.strain).toBeLessThan(states[i - 1]!.strain);
      expect(state.peakStrain).toBeGreaterThanOrEqual(state.strain);
    }
    expect(states[5]!.pushIn.force).toBe(0);
    expect(states[6]!.pullOut.force).toBe(0);
    const mid = states[2]!;
    const factor = (a: number) => Math.tan(a * degrees + Math.atan(0.35));
    expect(mid.pushIn.force).toBeCloseTo(2 * mid.legForce * factor(25), 9);
    expect(mid.pullOut.force).toBeCloseTo(2 * mid.legForce * factor(50), 9);
  });

  it('a square shoulder locks: that it holds is no number', () => {
    const [state] = barbedStem({ ...stem, retentionAngle: Math.PI / 2 }, [6]);
    expect(state!.pullOut).toEqual({ force: null, locks: true });
  });

  it.each([
    ['split stem requires legs 2 to 6 (given 1)', { legs: 1 }],
    ['split stem requires slot below 5.6 mm, to leave a leg (given 5.6)', { slot: 5.6 }],
    ['split stem requires bore 0 to below 5.6 mm (given 6)', { bore: 6 }],
    ['barbed stem requires barbDiameter 5.6 mm (the stem) or above (given 5)', { barbDiameter: 5 }],
    ['barbed stem requires length above 0 (given 0)', { length: 0 }],
    ['barbed stem requires insertionAngle 0 to pi/2 (given -1)', { insertionAngle: -1 }],
  ])('%s', (sentence, change) => {
    expect(() => barbedStem({ ...stem, ...change }, [6])).toThrow(new RangeError(sentence));
  });
});
