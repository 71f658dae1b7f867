import { expect, it } from 'vitest';
import { turnCovered } from '../../../src/donor/features/turnCovered.ts';

const PI = Math.PI;

it.each([
  ['nothing', [], 0, 1],
  ['two quarters', [0, PI / 2, PI, 1.5 * PI], 0.5, 0.25],
  ['over the half turn', [-PI / 4, PI / 4], 0.25, 0.75],
  ['over the full turn', [1.75 * PI, 2.25 * PI], 0.25, 0.75],
  ['twice the same', [0, PI, 0, PI], 0.5, 0.5],
  ['one inside another', [0, PI, PI / 4, PI / 2], 0.5, 0.5],
  ['all of it in pieces', [0, 2, 2, 4, 4, 2 * PI], 1, 0],
  ['all of it and more', [0, 7], 1, 0],
])('covers %s', (_, stretches, covered, gap) => {
  const found = turnCovered(stretches);
  expect(found.covered).toBeCloseTo(covered, 12);
  expect(found.gap).toBeCloseTo(gap, 12);
});
