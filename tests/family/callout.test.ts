import { expect, it } from 'vitest';
import { astride, between } from '../../src/family/callout.ts';

it.each([
  ['x', [-1, 1, 2], [3, 1, 2]],
  ['y', [1, -1, 2], [1, 3, 2]],
  ['z', [1, 1, 0], [1, 1, 4]],
] as const)('jaws 4 mm apart along %s stand 2 mm to either side of the middle', (axis, from, to) => {
  expect(astride(axis, 4, [1, 1, 2])).toEqual([from, to]);
});

it('a rule lies from one point to another', () => {
  expect(between([0, 0, 0], [0, 0, 3])).toEqual([
    [0, 0, 0],
    [0, 0, 3],
  ]);
});
