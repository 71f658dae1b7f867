import { expect, it } from 'vitest';
import type { LengthUnit } from '../../../src/donor/types.ts';
import { likelyDiameter } from '../../../src/donor/units/likelyDiameter.ts';

/** An even polygon of n facets whose corners lie on a circle. */
const polygon = (corners: number, n: number) => ({
  inscribed: corners * Math.cos(Math.PI / n),
  circumscribed: corners,
  diameter: corners,
  facets: n,
});

it.each<[string, number, number, LengthUnit, number, 'corners' | 'flats']>([
  ['whole millimetres on the corners', 6, 32, 'mm', 6, 'corners'],
  ['whole millimetres on the flats', 6 / Math.cos(Math.PI / 32), 32, 'mm', 6, 'flats'],
  ['a quarter inch on the flats', 0.25 / Math.cos(Math.PI / 24), 24, 'inch', 0.25, 'flats'],
  ['a sixteenth in a file of millimetres', 1.5875, 24, 'mm', 1.5875, 'corners'],
  ['neither round', 6.13717, 48, 'mm', 6.13717, 'corners'],
])('takes %s', (_, corners, n, unit, diameter, laid) => {
  const found = likelyDiameter(polygon(corners, n), unit);
  expect(found.diameter).toBeCloseTo(diameter, 9);
  expect(found.laid).toBe(laid);
});

it('takes uneven facets for corners on a circle', () => {
  expect(likelyDiameter({ inscribed: 6, circumscribed: 6.1, diameter: 6.1, facets: 32 }, 'mm').laid).toBe(
    'corners',
  );
});
