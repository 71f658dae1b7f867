import { expect, test } from 'vitest';
import { placeText } from '../../src/donor/donorRefusal.ts';

test('says a place to five digits, and nothing of what rounding left', () => {
  expect(placeText([1.5, 0, -2.25])).toBe('x 1.5, y 0, z -2.25');
  expect(placeText([-4.4393e-16, 1.135_04, 123.456_78])).toBe('x 0, y 1.135, z 123.46');
  expect(placeText([-0, 2e-5, 0])).toBe('x 0, y 0.00002, z 0');
});
