import { expect, test } from 'vitest';
import { fitChance } from '../../src/fit/chance.ts';
import { LATTICE_POINTS, latticeErrors } from '../../src/fit/lattice.ts';
import { cdfOf } from '../../src/fit/law.ts';
import { studentTable } from '../../src/fit/student.ts';

// Standard normal distribution function, from memory of the tables in Abramowitz and Stegun, table 26.1.
const table: readonly (readonly [number, number])[] = [
  [0, 0.5],
  [0.5, 0.6914624613],
  [1, 0.8413447461],
  [1.5, 0.9331927987],
  [2, 0.9772498681],
  [2.5, 0.9937903347],
  [3, 0.998650102],
  [4, 0.9999683288],
];

test.each(table)('Phi(%d) = %d', (z, p) => {
  const cdf = cdfOf({ kind: 'normal', u: 0.02, dof: Infinity });
  expect(cdf(0.02 * z)).toBeCloseTo(p, 9);
  expect(cdf(-0.02 * z)).toBeCloseTo(1 - p, 9);
  const { part } = fitChance({
    lines: [{ id: 'a', mean: 0.02 * z, window: { lo: 0, hi: Infinity }, sensitivity: {}, spread: 0.02 }],
    contributors: [],
  });
  expect(Math.abs(part - p)).toBeLessThan(1e-4);
});

// Quantiles, from memory of the same: z(0.975) = 1.95996, z(0.995) = 2.57583.
test('the errors of the lattice sit at the quantiles of the normal law', () => {
  const errors = latticeErrors('normal', Infinity);
  const at = (p: number) => errors[Math.round((p * LATTICE_POINTS - 1) / 2)]!;
  expect(Math.abs(at(0.975) - 1.95996)).toBeLessThan(0.003);
  expect(Math.abs(at(0.995) - 2.57583)).toBeLessThan(0.01);
  expect(Math.abs(at(0.5))).toBeLessThan(0.001);
});

// JCGM 100:2008, table G.2, columns 95 % and 99 %.
test.each([
  [1, 12.706, 63.657],
  [2, 4.303, 9.925],
  [3, 3.182, 5.841],
  [5, 2.571, 4.032],
  [10, 2.228, 3.169],
  [16, 2.12, 2.921],
  [20, 2.086, 2.845],
  [50, 2.009, 2.678],
  [100, 1.984, 2.626],
])('Student t of %d degrees of freedom: %d and %d', (dof, t95, t99) => {
  const { quantile, cdf } = studentTable(dof);
  expect(Math.abs(quantile(0.975) / t95 - 1)).toBeLessThan(5e-4);
  expect(Math.abs(quantile(0.995) / t99 - 1)).toBeLessThan(5e-4);
  expect(cdf(t95)).toBeCloseTo(0.975, 4);
  expect(cdf(-t99)).toBeCloseTo(0.005, 4);
});
