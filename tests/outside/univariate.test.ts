import { describe, expect, it } from 'vitest';
import { mean, sampleStandardDeviation } from '../../src/measure/statistics.ts';
import { typeA } from '../../src/measure/typeA.ts';

// NIST/ITL Statistical Reference Datasets, univariate: https://www.itl.nist.gov/div898/strd/
// Data and certified values; the certified values were recomputed in exact rational arithmetic and agree.

const numbers = (text: string) => text.trim().split(/\s+/).map(Number);
const alternating = (first: number, low: number, high: number) => [
  first,
  ...Array.from({ length: 500 }, () => [low, high]).flat(),
];

const mavro = numbers(`
2.00180 2.00170 2.00180 2.00190 2.00180 2.00170 2.00150 2.00140 2.00150 2.00150 2.00170 2.00180 2.00180
2.00190 2.00190 2.00210 2.00200 2.00160 2.00140 2.00130 2.00130 2.00150 2.00150 2.00160 2.00150 2.00140
2.00130 2.00140 2.00150 2.00140 2.00150 2.00160 2.00150 2.00160 2.00190 2.00200 2.00200 2.00210 2.00220
2.00230 2.00240 2.00250 2.00270 2.00260 2.00260 2.00260 2.00270 2.00260 2.00250 2.00240`);

const michelso = numbers(`
299.85 299.74 299.90 300.07 299.93 299.85 299.95 299.98 299.98 299.88 300.00 299.98 299.93 299.65 299.76
299.81 300.00 300.00 299.96 299.96 299.96 299.94 299.96 299.94 299.88 299.80 299.85 299.88 299.90 299.84
299.83 299.79 299.81 299.88 299.88 299.83 299.80 299.79 299.76 299.80 299.88 299.88 299.88 299.86 299.72
299.72 299.62 299.86 299.97 299.95 299.88 299.91 299.85 299.87 299.84 299.84 299.85 299.84 299.84 299.84
299.89 299.81 299.81 299.82 299.80 299.77 299.76 299.74 299.75 299.76 299.91 299.92 299.89 299.86 299.88
299.72 299.84 299.85 299.85 299.78 299.89 299.84 299.78 299.81 299.76 299.81 299.79 299.81 299.82 299.85
299.87 299.87 299.81 299.74 299.81 299.94 299.95 299.80 299.81 299.87`);

describe('mean and standard deviation against NIST certified values', () => {
  it.each([
    // name, data, n, certified mean, certified s, relative tolerance of s.
    // The tolerance follows from what doubles can hold: s of 0.1 on 1e7 keeps about 8 digits.
    ['Mavro', mavro, 50, 2.001856, 0.000429123454003053, 1e-12],
    ['Michelso', michelso, 100, 299.8524, 0.0790105478190518, 1e-12],
    ['NumAcc1', [10000001, 10000003, 10000002], 3, 10000002, 1, 1e-15],
    ['NumAcc2', alternating(1.2, 1.1, 1.3), 1001, 1.2, 0.1, 1e-13],
    ['NumAcc3', alternating(1000000.2, 1000000.1, 1000000.3), 1001, 1000000.2, 0.1, 1e-8],
    ['NumAcc4', alternating(10000000.2, 10000000.1, 10000000.3), 1001, 10000000.2, 0.1, 1e-7],
  ])('%s', (_, data, n, certifiedMean, certifiedDeviation, tolerance) => {
    expect(data).toHaveLength(n);
    expect(Math.abs(mean(data) / certifiedMean - 1)).toBeLessThanOrEqual(1e-15);
    expect(Math.abs(sampleStandardDeviation(data) / certifiedDeviation - 1)).toBeLessThanOrEqual(tolerance);
    // The pipeline's own type A, with no prior, is the same deviation over sqrt(n).
    expect(Math.abs((typeA(data, 0.02, 0).u * Math.sqrt(n)) / certifiedDeviation - 1)).toBeLessThanOrEqual(
      tolerance + 1e-15,
    );
  });
});
