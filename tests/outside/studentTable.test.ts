import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../../src/measure/index.ts';

// JCGM 100:2008, table G.2, with one more digit (recomputed; agrees with the printed three figures).
const CONFIDENCES = [0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973];
const TABLE: readonly (readonly [number, ...number[]])[] = [
  [1, 1.837, 6.314, 12.706, 13.968, 63.657, 235.784],
  [2, 1.321, 2.92, 4.303, 4.527, 9.925, 19.206],
  [3, 1.197, 2.353, 3.182, 3.307, 5.841, 9.219],
  [4, 1.142, 2.132, 2.776, 2.869, 4.604, 6.62],
  [5, 1.111, 2.015, 2.571, 2.649, 4.032, 5.507],
  [6, 1.091, 1.943, 2.447, 2.517, 3.707, 4.904],
  [7, 1.077, 1.895, 2.365, 2.429, 3.499, 4.53],
  [8, 1.067, 1.86, 2.306, 2.366, 3.355, 4.277],
  [9, 1.059, 1.833, 2.262, 2.32, 3.25, 4.094],
  [10, 1.053, 1.812, 2.228, 2.284, 3.169, 3.957],
  [12, 1.043, 1.782, 2.179, 2.231, 3.055, 3.764],
  [14, 1.037, 1.761, 2.145, 2.195, 2.977, 3.636],
  [16, 1.032, 1.746, 2.12, 2.169, 2.921, 3.544],
  [19, 1.027, 1.729, 2.093, 2.14, 2.861, 3.447],
  [20, 1.026, 1.725, 2.086, 2.133, 2.845, 3.422],
  [30, 1.017, 1.697, 2.042, 2.087, 2.75, 3.27],
  [50, 1.01, 1.676, 2.009, 2.051, 2.678, 3.157],
  [100, 1.005, 1.66, 1.984, 2.025, 2.626, 3.077],
  [Number.POSITIVE_INFINITY, 1.0, 1.645, 1.96, 2.0, 2.576, 3.0],
];

describe('coverage factor against table G.2', () => {
  it.each(TABLE)('%d degrees of freedom', (dof, ...factors) => {
    factors.forEach((factor, column) => {
      // Half of the last digit printed.
      expect(Math.abs(coverageFactor(dof, CONFIDENCES[column]!) - factor)).toBeLessThanOrEqual(0.0005001);
    });
  });

  it('refuses less than one degree of freedom and confidences that are none', () => {
    expect(() => coverageFactor(0.5)).toThrow('1 or more degrees of freedom');
    expect(() => coverageFactor(10, 1)).toThrow(RangeError);
    expect(() => coverageFactor(10, 0)).toThrow(RangeError);
    expect(() => coverageFactor(Number.NaN)).toThrow(RangeError);
  });
});
