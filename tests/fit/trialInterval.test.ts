import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { describe, expect, it } from 'vitest';
import { momentsWithin } from '../../src/fit/trialInterval.ts';

// Closed forms of the truncated normal law: Johnson, Kotz and Balakrishnan, Continuous Univariate Distributions, vol. 1,
// 13.10 (from memory).
const phi = (x: number) => Math.exp(-(x ** 2) / 2) / Math.sqrt(2 * Math.PI);

describe('a normal error cut off', () => {
  it('on one side is the half-normal law', () => {
    const { mean, variance } = momentsWithin(0, 1, 0, Infinity);
    expect(mean).toBeCloseTo(Math.sqrt(2 / Math.PI), 8);
    expect(variance).toBeCloseTo(1 - 2 / Math.PI, 8);
  });

  it.each([
    [0.02, 0.05, -0.03, 0.06],
    [0, 1, -1, 2],
    [0.1, 0.03, 0, 0.15],
    [-0.2, 0.1, -Infinity, -0.25],
    [0.4, 0.2, 0.9, Infinity],
  ])('%f +- %f between %f and %f has the moments of the closed form', (mean, sd, lo, hi) => {
    const [a, b] = [(lo - mean) / sd, (hi - mean) / sd];
    const inside = normalCdf(b, 0, 1) - normalCdf(a, 0, 1);
    const edge = (x: number) => (Number.isFinite(x) ? x * phi(x) : 0);
    const by = (phi(a) - phi(b)) / inside;
    const found = momentsWithin(mean, sd, lo, hi);
    expect(found.mean).toBeCloseTo(mean + sd * by, 7);
    expect(found.variance / sd ** 2).toBeCloseTo(1 + (edge(a) - edge(b)) / inside - by ** 2, 7);
  });

  it('far out falls off as an exponential law does', () => {
    // Beyond a the density is that of rate a, but for terms of 1 / a^2 (Abramowitz and Stegun 26.2.12, Mills' ratio).
    const { mean, variance } = momentsWithin(0, 1, 40, Infinity);
    expect((mean - 40) * 40).toBeCloseTo(1 - 2 / 40 ** 2, 5);
    expect(variance * 40 ** 2).toBeCloseTo(1 - 6 / 40 ** 2, 4);
    const mirrored = momentsWithin(0, 1, -Infinity, -40);
    expect(mirrored.mean).toBeCloseTo(-mean, 12);
  });

  it('in a narrow interval is even, and uncut is itself', () => {
    const narrow = momentsWithin(0.3, 1, 0.1, 0.1001);
    expect(narrow.mean).toBeCloseTo(0.10005, 8);
    expect(narrow.variance).toBeCloseTo(0.0001 ** 2 / 12, 12);
    const whole = momentsWithin(0.3, 0.2, -Infinity, Infinity);
    expect(whole.mean).toBeCloseTo(0.3, 9);
    expect(whole.variance).toBeCloseTo(0.04, 9);
  });
});
