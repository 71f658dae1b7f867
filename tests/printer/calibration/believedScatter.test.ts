import { expect, test } from 'vitest';
import { believedScatter } from '../../../src/printer/calibration/believedScatter.ts';

/** What `count` sizes that stray by `scatter` say: the chi-square law of their sum of squares. */
const seen = (scatter: number, count: number) => (s: number) =>
  -count * Math.log(s) - (count * scatter ** 2) / (2 * s * s);
const believed = (scatter: number, count: number) =>
  believedScatter(seen(scatter, count), { value: scatter, dof: count });

// The mean variance of a scatter that lies anywhere from a to b is (b^3 - a^3) / (3 (b - a)); one printer in twenty may
// be anything and raises it.
test('with nothing measured it is what is usual', () => {
  const usual = Math.sqrt((0.04 ** 3 - 0.015 ** 3) / (3 * 0.025));
  const { value } = believed(0.0275, 0);
  expect(value).toBeGreaterThan(usual);
  expect(value).toBeLessThan(2 * usual);
});

test('many sizes speak for themselves, wherever they lie', () => {
  for (const value of [0.008, 0.02, 0.03, 0.07]) {
    const { value: found, dof } = believed(value, 4000);
    expect(found / value).toBeGreaterThan(0.99);
    expect(found / value).toBeLessThan(1.01);
    expect(dof / 4000).toBeGreaterThan(0.9);
    expect(dof / 4000).toBeLessThan(1.1);
  }
});

test('few sizes are drawn towards what is usual', () => {
  expect(believed(0.046, 20).value).toBeLessThan(0.043);
  expect(believed(0.03, 20).value).toBeCloseTo(0.03, 2);
  expect(believed(0.03, 20).dof).toBeGreaterThan(14);
});

test('what no printer does is not made better', () => {
  expect(believed(1.9, 11)).toEqual({ value: 1.9, dof: 11 });
});

test('grows with the estimate', () => {
  const values = [0.012, 0.018, 0.024, 0.03, 0.04, 0.05, 0.07].map((value) => believed(value, 20).value);
  expect(values).toEqual(values.toSorted((a, b) => a - b));
});
