import { describe, expect, it } from 'vitest';
import { type Residual, scatterOf } from '../../../src/printer/calibration/scatter.ts';
import { defaultPrinter } from '../../../src/printer/defaultPrinter.ts';
import { draws } from './bench.ts';

const PRIOR = defaultPrinter.repeatability ** 2;

describe('scatter of prints', () => {
  it('is the prior without residuals', () => {
    const { value, dof } = scatterOf([]);
    expect(value).toBeCloseTo(defaultPrinter.repeatability, 12);
    expect(dof).toBeCloseTo(6, 9);
  });

  // Closed form: pooled variance of two samples, sum of squares over sum of degrees of freedom.
  it('is the pooled variance where readings are exact', () => {
    const residuals = [0.01, -0.04, 0.03, 0.02].map((r) => ({ square: r * r, variance: 0, freedom: 0.75 }));
    const { value, dof } = scatterOf(residuals);
    expect(value ** 2).toBeCloseTo((0.003 + 6 * PRIOR) / (3 + 6), 14);
    expect(dof).toBeCloseTo(9, 9);
  });

  it('balances the weighted squares with what they are expected to be', () => {
    const { between } = draws(5);
    for (let k = 0; k < 50; k++) {
      const residuals: Residual[] = Array.from({ length: 1 + (k % 40) }, () => ({
        square: between(0, 0.3) ** 2,
        variance: between(0, 0.05) ** 2,
        freedom: between(0.1, 1),
      }));
      const s2 = scatterOf(residuals).value ** 2;
      let squares = (6 * PRIOR) / s2;
      let expected = 6;
      for (const { square, variance, freedom } of residuals) {
        squares += square / (s2 + variance);
        expected += freedom;
      }
      expect(squares / expected).toBeCloseTo(1, 10);
    }
  });

  it('learns nothing from readings much coarser than itself', () => {
    const coarse = Array.from({ length: 30 }, () => ({ square: 1, variance: 1, freedom: 1 }));
    const fine = Array.from({ length: 30 }, () => ({ square: PRIOR, variance: 0, freedom: 1 }));
    expect(scatterOf(coarse).dof).toBeLessThan(2);
    expect(scatterOf(fine).dof).toBeCloseTo(36, 9);
  });

  // Monte Carlo: relative variance of a chi-square over its degrees of freedom is 2 / dof.
  it('is as uncertain as its degrees of freedom say', () => {
    const { normal } = draws(11);
    const truth = 0.0275;
    const found = Array.from({ length: 4000 }, () => {
      const residuals = Array.from({ length: 40 }, (_, k) => {
        const variance = (0.005 + 0.0005 * k) ** 2;
        return { square: (truth ** 2 + variance) * normal() ** 2, variance, freedom: 1 };
      });
      return scatterOf(residuals);
    });
    const logs = found.map(({ value }) => 2 * Math.log(value / truth));
    const mean = logs.reduce((sum, x) => sum + x, 0) / logs.length;
    const variance = logs.reduce((sum, x) => sum + (x - mean) ** 2, 0) / logs.length;
    const dof = found.reduce((sum, each) => sum + each.dof, 0) / found.length;
    // The prior here is the truth itself, known without doubt, so its 6 degrees of freedom bring no scatter.
    const expected = (2 / dof) * ((dof - 6) / dof);
    expect(Math.abs(mean)).toBeLessThan(0.03);
    expect(variance / expected).toBeGreaterThan(0.85);
    expect(variance / expected).toBeLessThan(1.2);
  });
});
