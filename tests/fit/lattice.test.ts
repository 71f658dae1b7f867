import { expect, test } from 'vitest';
import { LATTICE_POINTS, latticeErrors, latticeVector } from '../../src/fit/lattice.ts';

// Worst-case error P2 in a Korobov space with product weights (Sloan and Joe, Lattice Methods for Multiple
// Integration, 1994, from memory): mean over points of prod(1 + weight 2 pi^2 B2(x)) - 1, B2 = x^2 - x + 1/6.
test('the generating vector is what the component-by-component search finds', () => {
  const n = LATTICE_POINTS;
  const kernel = Float64Array.from(
    { length: n },
    (_, i) => 2 * Math.PI ** 2 * ((i / n) ** 2 - i / n + 1 / 6),
  );
  const product = new Float64Array(n).fill(1);
  // Eight dimensions of the search are enough to tell a mistyped vector; the rest takes as long again.
  for (let d = 1; d <= 8; d++) {
    const weight = 1 / d ** 2;
    const errorOf = (z: number) => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += product[i]! * (1 + weight * kernel[(i * z) & (n - 1)]!);
      return sum / n;
    };
    const own = latticeVector[d - 1]!;
    const ownError = errorOf(own);
    let least = Infinity;
    let worse = 0;
    for (let z = 1; z < n / 2 && d > 1; z += 2) {
      const error = errorOf(z);
      least = Math.min(least, error);
      if (error > ownError * (1 + 1e-6)) worse++;
    }
    // Numbers tie with one another by symmetry, so that rounding picks among them; the error is what counts.
    if (d > 1) {
      expect(ownError).toBeLessThanOrEqual(least * (1 + 1e-12));
      expect(worse).toBeGreaterThan(n / 8);
    }
    for (let i = 0; i < n; i++) product[i]! *= 1 + weight * kernel[(i * own) & (n - 1)]!;
  }
  expect(new Set(latticeVector).size).toBe(latticeVector.length);
});

test.each([
  ['normal', Infinity, 1],
  ['rectangular', Infinity, 1],
  ['student', 10, 10 / 8],
] as const)('errors of the standard %s law have mean 0 and its variance', (kind, dof, variance) => {
  const errors = latticeErrors(kind, dof);
  const mean = errors.reduce((sum, x) => sum + x, 0) / errors.length;
  const square = errors.reduce((sum, x) => sum + x * x, 0) / errors.length;
  expect(Math.abs(mean)).toBeLessThan(1e-6);
  expect(Math.abs(square - variance)).toBeLessThan(0.003);
});
