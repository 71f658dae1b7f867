import { expect, it } from 'vitest';
import { openDonor } from '../../src/donor/donor.ts';
import { knobbedBar } from '../bench/donorRefit.ts';
import { plainStl } from './files.ts';

it('says how far it is while it looks for round walls, too, and finds the same', () => {
  const bytes = plainStl(knobbedBar(240, 120));
  const shares: number[] = [];
  const { features } = openDonor(bytes, 'bar.stl', { unit: 'mm', onProgress: (share) => shares.push(share) });
  expect(shares).toEqual(shares.toSorted((a, b) => a - b));
  expect(shares.at(-1)).toBeLessThanOrEqual(1);
  // Reading is over long before the walls are found.
  expect(shares.filter((share) => share > 0.3).length).toBeGreaterThanOrEqual(2);
  expect(openDonor(bytes, 'bar.stl', { unit: 'mm' }).features).toEqual(features);
});
