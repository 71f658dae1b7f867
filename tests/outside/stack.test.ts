import { describe, expect, test } from 'vitest';
import { fitChance } from '../../src/fit/chance.ts';
import { cdfOf } from '../../src/fit/law.ts';
import type { FitProblem } from '../../src/fit/types.ts';

/** A linear stack as a fit: each tolerance taken as 3 standard uncertainties of a normal cause, as the root-sum-square
 *  method of the textbooks has it. Returns the gap's mean and the root sum square T of its tolerance. */
function stack(
  parts: readonly (readonly [size: number, tolerance: number])[],
  window: { lo: number; hi: number },
) {
  const contributors = parts.map(([, tolerance], i) => ({
    id: `part${i}`,
    label: `part ${i}`,
    u: tolerance / 3,
    distribution: 'normal' as const,
    dof: Infinity,
  }));
  const mean = parts.reduce((sum, [size]) => sum + size, 0);
  const sensitivity = Object.fromEntries(parts.map(([size], i) => [`part${i}`, Math.sign(size)]));
  const problem: FitProblem = {
    lines: [{ id: 'gap', mean, window, sensitivity, spread: 1e-9 }],
    contributors,
  };
  const chance = fitChance(problem);
  // The root sum square follows from the share of any one part: T_i^2 / T^2.
  const first = chance.shares.gap!.find(({ id }) => id === 'part0')!.share;
  return { mean, rss: parts[0]![1] / Math.sqrt(first), chance: chance.part, shares: chance.shares.gap! };
}

describe('tolerance stacks', () => {
  // Gap of a bearing on a shaft: Fortini, Dimensioning for Interchangeable Manufacture, 1967, as worked by Chase
  // (Brigham Young University), from memory; inch there, and the numbers do not mind.
  test('bearing and shaft', () => {
    const parts = [
      [-0.0505, 0.0015],
      [8, 0.008],
      [-0.5093, 0.0025],
      [0.4, 0.002],
      [-7.711, 0.006],
      [0.4, 0.002],
      [-0.5093, 0.0025],
    ] as const;
    const { mean, rss, chance, shares } = stack(parts, { lo: 0.005, hi: 0.035 });
    expect(mean).toBeCloseTo(0.0199, 10);
    expect(rss).toBeCloseTo(0.0110793, 7);
    expect(shares[0]).toMatchObject({ id: 'part1' });
    // 0.0149 and 0.0151 over 0.0110793 / 3: 4.03 and 4.09 standard deviations inside.
    expect(chance).toBeGreaterThan(0.9998);
  });

  // A teaching page, mm: pocket less plate, spacer and cap.
  test('pocket with plate, spacer and cap', () => {
    const parts = [
      [20.2, 0.05],
      [-6, 0.1],
      [-9, 0.12],
      [-5, 0.08],
    ] as const;
    const { mean, rss, chance } = stack(parts, { lo: 0.1, hi: 0.5 });
    expect(mean).toBeCloseTo(0.2, 10);
    expect(rss).toBeCloseTo(0.1824829, 7);
    const cdf = cdfOf({ kind: 'normal', u: 0.1824829 / 3, dof: Infinity });
    expect(Math.abs(chance - (cdf(0.3) - cdf(-0.1)))).toBeLessThan(1e-4);
  });

  // Root of n times the tolerance of one: ten of 0.1, three of 0.005.
  test.each([
    [10, 0.1, 0.316228],
    [3, 0.005, 0.00866025],
  ])('%d equal parts of +-%d', (count, tolerance, expected) => {
    const { rss } = stack(
      Array.from({ length: count }, () => [1, tolerance] as const),
      { lo: 0, hi: 20 },
    );
    expect(Math.abs(rss / expected - 1)).toBeLessThan(1e-6);
  });
});
