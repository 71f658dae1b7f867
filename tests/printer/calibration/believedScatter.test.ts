import { expect, test } from 'vitest';
import { believedScatter } from '../../../src/printer/calibration/believedScatter.ts';

// The mean variance of a scatter that lies anywhere from a to b is (b^3 - a^3) / (3 (b - a)); one printer in twenty may
// be anything and raises it.
test('with nothing measured it is what is usual', () => {
  const usual = Math.sqrt((0.04 ** 3 - 0.015 ** 3) / (3 * 0.025));
  const { value } = believedScatter({ value: 0.0275, dof: 6 });
  expect(value).toBeGreaterThan(usual);
  expect(value).toBeLessThan(2 * usual);
});

test('many sizes speak for themselves, wherever they lie', () => {
  for (const value of [0.008, 0.02, 0.03, 0.07]) {
    const believed = believedScatter({ value, dof: 4000 });
    expect(believed.value / value).toBeGreaterThan(0.97);
    expect(believed.value / value).toBeLessThan(1.03);
  }
});

test('few sizes are drawn towards what is usual', () => {
  expect(believedScatter({ value: 0.046, dof: 20 }).value).toBeLessThan(0.043);
  expect(believedScatter({ value: 0.03, dof: 20 }).value).toBeCloseTo(0.03, 2);
  expect(believedScatter({ value: 0.03, dof: 20 }).dof).toBeGreaterThan(14);
});

test('what no printer does is not made better', () => {
  expect(believedScatter({ value: 1.9, dof: 11 })).toEqual({ value: 1.9, dof: 11 });
});

test('grows with the estimate', () => {
  const believed = [0.012, 0.018, 0.024, 0.03, 0.04, 0.05, 0.07].map(
    (value) => believedScatter({ value, dof: 20 }).value,
  );
  expect(believed).toEqual(believed.toSorted((a, b) => a - b));
});
