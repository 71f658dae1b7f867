import { describe, expect, it } from 'vitest';
import {
  combine,
  combinedUncertainty,
  coverageFactor,
  defaultCallipers,
  dimensionOf,
  effectiveDegreesOfFreedom,
  rectangular,
  resolutionUncertainty,
} from '../../src/measure/index.ts';
import { mean } from '../../src/measure/statistics.ts';
import { typeA } from '../../src/measure/typeA.ts';

const relative = (value: number, expected: number) => Math.abs(value / expected - 1);

describe('JCGM 100:2008', () => {
  it('4.4.3, table 1: twenty temperature readings', () => {
    const readings = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95,
      101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const evaluated = typeA(readings, 0.02, 0);
    expect(mean(readings)).toBeCloseTo(100.145, 10);
    expect(evaluated.s).toBeCloseTo(1.4888445, 7);
    expect(evaluated.u).toBeCloseTo(0.3329157, 7);
    expect(evaluated.dof).toBe(19);
  });

  it('4.4.5: rectangular distribution from 96 to 104', () => {
    expect(rectangular(4)).toBeCloseTo(2.3094011, 7);
  });

  it('F.2.2.1: resolution of 0.01 mm', () => {
    expect(resolutionUncertainty(0.01)).toBeCloseTo(0.002886751, 9);
  });

  it('G.4.1: product of three quantities with 10, 5 and 15 readings', () => {
    // Relative standard uncertainties in per cent.
    const causes = [
      { u: 0.25, dof: 9 },
      { u: 0.57, dof: 4 },
      { u: 0.82, dof: 14 },
    ];
    expect(combinedUncertainty(causes)).toBeCloseTo(1.0294659, 7);
    expect(effectiveDegreesOfFreedom(causes)).toBeCloseTo(18.99874, 5);
    // The printed 19.0 goes into the table as 19; truncated it is 18.
    expect(coverageFactor(19)).toBeCloseTo(2.0930241, 7);
    expect(coverageFactor(19) * combinedUncertainty(causes)).toBeCloseTo(2.1547, 4);
    expect(combine(causes).dof).toBe(18);
  });

  it('H.1: end gauge, budget in nm', () => {
    const gauge = 50.000623e6;
    const standard = { u: 25, dof: 18 };
    const parts = [5.8, 3.9, 6.7].map((u) => ({ u, dof: Number.POSITIVE_INFINITY }));
    const difference = { u: combinedUncertainty(parts), dof: 25.6 };
    const expansion = { u: gauge * 0.1 * 0.58e-6, dof: 50 };
    const temperature = { u: gauge * 11.5e-6 * 0.029, dof: 2 };
    expect(difference.u).toBeCloseTo(9.7, 1);
    expect(expansion.u).toBeCloseTo(2.9, 3);
    expect(temperature.u).toBeCloseTo(16.6752, 4);

    const causes = [standard, { ...difference, u: 9.7 }, expansion, temperature];
    const budget = combine(causes, 0.99);
    expect(budget.u).toBeCloseTo(31.7106, 4);
    expect(effectiveDegreesOfFreedom(causes)).toBeCloseTo(16.656, 3);
    expect(budget.dof).toBe(16);
    expect(budget.k).toBeCloseTo(2.9208, 4);
    expect(budget.U).toBeCloseTo(92.62, 2);
  });

  it('H.1 as printed, from rounded parts: 32 nm, k = 2.92, 93 nm', () => {
    const budget = combine(
      [
        { u: 25, dof: 18 },
        { u: 9.7, dof: 25.6 },
        { u: 2.9, dof: 50 },
        { u: 16.6, dof: 2 },
      ],
      0.99,
    );
    expect(budget.u.toFixed(0)).toBe('32');
    expect(budget.dof).toBe(16);
    expect(budget.k.toFixed(2)).toBe('2.92');
    expect(budget.U.toFixed(0)).toBe('93');
  });

  it('4.2, 4.3 and G.4 together: five readings with callipers, through the whole of dimensionOf', () => {
    // Computed by the rules from these readings, a permissible error of 0.02 mm and steps of 0.01 mm.
    const dimension = dimensionOf(
      { id: 'post', name: 'Post', jaw: 'outside', from: 5, to: 20 },
      [12.34, 12.36, 12.35, 12.33, 12.37],
      { ...defaultCallipers, permissibleError: 0.02, priorDegreesOfFreedom: 0 },
    );
    expect(dimension.value).toBeCloseTo(12.35, 12);
    expect(dimension.contributors[0]!.u).toBeCloseTo(0.00707107, 8);
    expect(dimension.u).toBeCloseTo(0.0138444, 7);
    expect(effectiveDegreesOfFreedom(dimension.contributors)).toBeCloseTo(58.78, 2);
    expect(dimension.dof).toBe(58);
    expect(dimension.k).toBeCloseTo(2.00172, 5);
    expect(dimension.U).toBeCloseTo(0.0277125, 7);
  });
});

describe('EA-4/02 M:2013, example S10: vernier callipers at 150 mm', () => {
  it('has the printed parts and 33 micrometres in all', () => {
    // Half-widths in micrometres: gauge block, 2 K of temperature difference, reading of a 0.05 mm vernier,
    // mechanical effects.
    const halfWidths = [0.8, 2 * 150e3 * 11.5e-6, 25, 50];
    const causes = halfWidths.map((a) => ({ u: rectangular(a), dof: Number.POSITIVE_INFINITY }));
    [0.4619, 1.9919, 14.4338, 28.8675].forEach((expected, index) => {
      expect(causes[index]!.u).toBeCloseTo(expected, 4);
    });
    const budget = combine(causes);
    // The printed 33 comes of parts rounded up.
    expect(budget.u).toBeCloseTo(32.34, 3);
    expect(relative(budget.u, 33)).toBeLessThan(0.025);
    expect(budget.dof).toBe(Number.POSITIVE_INFINITY);
    // A vernier of 0.05 mm read to half a step either side is the resolution rule by another name.
    expect(causes[2]!.u).toBeCloseTo(1000 * resolutionUncertainty(0.05), 10);
  });
});
