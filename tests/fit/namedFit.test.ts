import { expect, test } from 'vitest';
import { fitClasses } from '../../src/fit/classes.ts';
import { namedFit } from '../../src/fit/namedFit.ts';

test('a class stays a class', () => {
  for (const name of Object.keys(fitClasses)) expect(namedFit(name, 25)).toBe(name);
});

test.each([
  // Published: 50 H8/f7 has 0.025 to 0.089 mm; 25 H7/k6 -0.015 to 0.019 (arithmetic on ISO 286-1, tables 1 and 5).
  ['H8/f7', 50, { lo: 0.025, hi: 0.089 }],
  ['H7/k6', 25, { lo: -0.015, hi: 0.019 }],
])('%s at %d mm is a window', (code, size, window) => {
  expect(namedFit(code, size)).toEqual(window);
});

test.each([
  ['tight', 25, 'fit_code_unclear'],
  ['toString', 25, 'fit_code_unclear'],
  ['H8/w7', 25, 'deviation_unknown'],
  ['H8/f7', 501, 'size_outside_table'],
])('%s at %d mm is refused', (name, size, code) => {
  expect(() => namedFit(name, size)).toThrow(expect.objectContaining({ code }));
});
