import { describe, expect, it } from 'vitest';
import {
  combine,
  combinedUncertainty,
  coverageFactor,
  effectiveDegreesOfFreedom,
} from '../../src/measure/index.ts';
import { typeA } from '../../src/measure/typeA.ts';
import { randomness } from '../simulation/randomness.ts';

describe('combine', () => {
  it('keeps the degrees of freedom of a single cause, for all of them', () => {
    for (let dof = 1; dof <= 500; dof += 1) {
      for (const u of [1e-9, 0.0137, 3]) expect(combine([{ u, dof }]).dof).toBe(dof);
    }
  });

  it('is unlimited without doubt and with type B alone', () => {
    expect(combine([])).toMatchObject({ u: 0, dof: Number.POSITIVE_INFINITY, U: 0 });
    expect(combine([{ u: 0, dof: 3 }])).toMatchObject({ u: 0, dof: Number.POSITIVE_INFINITY });
    const b = combine([{ u: 1, dof: Number.POSITIVE_INFINITY }]);
    expect(b.dof).toBe(Number.POSITIVE_INFINITY);
    expect(b.k).toBeCloseTo(1.959964, 6);
  });

  it('does not depend on the unit of length', () => {
    const causes = [
      { u: 0.02, dof: 10 },
      { u: 0.0115, dof: Number.POSITIVE_INFINITY },
    ];
    const tiny = causes.map(({ u, dof }) => ({ u: u * 1e-90, dof }));
    expect(effectiveDegreesOfFreedom(tiny)).toBeCloseTo(effectiveDegreesOfFreedom(causes), 9);
  });

  it('answers the example of its docstring', () => {
    const causes = [
      { u: 3, dof: Number.POSITIVE_INFINITY },
      { u: 4, dof: 9 },
    ];
    expect(combinedUncertainty(causes)).toBe(5);
    // 9 * 5^4 / 4^4
    expect(effectiveDegreesOfFreedom(causes)).toBeCloseTo(21.97265625, 10);
    const budget = combine(causes);
    expect(budget.dof).toBe(21);
    expect(budget.k).toBeCloseTo(2.0796, 4);
    expect(budget.U).toBeCloseTo(10.398, 3);
  });
});

describe('coverageFactor', () => {
  it('falls towards the normal quantile', () => {
    let last = Number.POSITIVE_INFINITY;
    for (const dof of [1, 2, 3, 10, 100, 1e4, 1e6]) {
      const k = coverageFactor(dof);
      expect(k).toBeLessThan(last);
      last = k;
    }
    expect(last).toBeCloseTo(coverageFactor(Number.POSITIVE_INFINITY), 5);
  });
});

describe('typeA', () => {
  it('is the prior alone for one reading', () => {
    expect(typeA([4.02], 0.02, 10)).toEqual({ s: 0.02, u: 0.02, dof: 10, deviation: 0.02 });
  });

  it('answers the example of its docstring', () => {
    const evaluated = typeA([4.02, 4.04], 0.02, 10);
    // s^2 = (10 * 0.0004 + 0.0002) / 11
    expect(evaluated.s).toBeCloseTo(Math.sqrt(0.0042 / 11), 12);
    expect(evaluated.s).toBeCloseTo(0.01954, 5);
    expect(evaluated.u).toBeCloseTo(0.01382, 5);
    expect(evaluated.dof).toBe(11);
  });

  // Hands whose variance follows the inverse chi-square law of 10 degrees of freedom and the mean 0.02^2: readings of
  // many such hands err by the deviation said, in the root of the mean.
  it('says how far means stray where hands are as the prior has it', () => {
    const random = randomness(17);
    let [strayed, said] = [0, 0];
    for (let k = 0; k < 40_000; k++) {
      const chiSquare = Array.from({ length: 10 }, () => random.normal(1) ** 2).reduce(
        (sum, x) => sum + x,
        0,
      );
      const hand = 0.02 * Math.sqrt(8 / chiSquare);
      const readings = [random.normal(hand), random.normal(hand), random.normal(hand)];
      strayed += (readings[0]! + readings[1]! + readings[2]!) ** 2 / 9;
      said += typeA(readings, 0.02, 10).deviation! ** 2;
    }
    expect(said / strayed).toBeGreaterThan(0.97);
    expect(said / strayed).toBeLessThan(1.03);
  });

  it('leaves readings without a prior to Student', () => {
    expect(typeA([4.02, 4.04, 4.03], 0.02, 0).deviation).toBeUndefined();
  });

  it('refuses what it cannot evaluate', () => {
    expect(() => typeA([], 0.02, 10)).toThrow('at least 1 reading (given 0)');
    expect(() => typeA([4], 0.02, 0)).toThrow('at least 2 readings');
    expect(() => typeA([4], -0.02, 10)).toThrow('prior of 0 or above');
  });
});
