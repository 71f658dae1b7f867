import { describe, expect, it } from 'vitest';
import { formatLength, formatNumber } from '../../src/units/index.ts';

describe('formatNumber', () => {
  it.each([
    // value, u, text: two significant digits of u, at most three decimals (JCGM 100:2008, 7.2.6).
    [4.01953, 0.0138, '4.020'],
    [4.01953, 0.24, '4.02'],
    [4.01953, 0.0004, '4.020'],
    [12.3, 0.0996, '12.30'],
    [12.3, 0.0994, '12.300'],
    [12.3, 1.2, '12.3'],
    [123.4, 12, '123'],
    [1.594, undefined, '1.59'],
    [1.594, 0, '1.59'],
    [-0.0004, 0.01, '0.000'],
    [-0.02, undefined, '-0.02'],
  ])('writes %d known to %s as %s', (value, u, text) => {
    expect(formatNumber(value, u)).toBe(text);
  });
});

describe('formatLength', () => {
  it('carries its unit', () => {
    expect(formatLength(4.01953, 0.0138)).toBe('4.020 mm');
  });
});
