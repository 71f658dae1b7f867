import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circumscribed, facets } from '../../src/solid/facets.ts';

/** Distance from the middle of a facet to the circle through its ends. */
const sagitta = (diameter: number, n: number): number => (diameter / 2) * (1 - Math.cos(Math.PI / n));

describe('facets', () => {
  test('as many as its example says', () => {
    expect(facets(5, 0.005)).toBe(52);
  });

  test('keep the chord error, with no four to spare, over the range of sizes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 250, noNaN: true }),
        fc.constantFrom(0.005, 0.02),
        (diameter, error) => {
          const n = facets(diameter, error);
          expect(n % 4).toBe(0);
          expect(n).toBeGreaterThanOrEqual(12);
          if (n < 512) expect(sagitta(diameter, n)).toBeLessThanOrEqual(error * (1 + 1e-9));
          if (n > 12) expect(sagitta(diameter, n - 4)).toBeGreaterThan(error * (1 - 1e-9));
        },
      ),
      { seed: 4 },
    );
  });

  test('smaller than the error itself, and without end', () => {
    expect(facets(0.001, 0.02)).toBe(12);
    expect(facets(1e6, 0.005)).toBe(512);
  });

  test('circumscribed flats touch the circle', () => {
    for (const n of [12, 52, 512]) expect(circumscribed(3, n) * Math.cos(Math.PI / n)).toBeCloseTo(3, 12);
  });
});
