import { describe, expect, it } from 'vitest';
import { parseLength, parseQuantity } from '../../src/units/index.ts';
import { normaliseText } from '../../src/units/normaliseText.ts';

describe('parseLength', () => {
  it.each([
    // text, mm, unit. Inch values by hand: 25.4 mm times the fraction.
    ['12,34', 12.34, 'mm'],
    ['12.34', 12.34, 'mm'],
    ['1.6 mm', 1.6, 'mm'],
    ['1,6mm', 1.6, 'mm'],
    ['1.6 MM', 1.6, 'mm'],
    ['1.6\u00A0mm', 1.6, 'mm'],
    ['\u20091,6\u202Fmm\u3000', 1.6, 'mm'],
    ['0.125in', 3.175, 'in'],
    ['.125"', 3.175, 'in'],
    ['0.125 inch', 3.175, 'in'],
    ['0.125 Inches', 3.175, 'in'],
    ['1/8"', 3.175, 'in'],
    ['1/8″', 3.175, 'in'],
    ['1/8”', 3.175, 'in'],
    ["1/8''", 3.175, 'in'],
    ['1/8’’', 3.175, 'in'],
    ['1⁄8 in', 3.175, 'in'],
    ['⅛ in', 3.175, 'in'],
    ['3/64 in', 1.190625, 'in'],
    ['1 1/8"', 28.575, 'in'],
    ['1-1/8 in', 28.575, 'in'],
    ['1 - 1/8 in', 28.575, 'in'],
    ['1⅛″', 28.575, 'in'],
    ['9/8 in', 28.575, 'in'],
    ['2 cm', 20, 'cm'],
    ['3 thou', 0.0762, 'thou'],
    ['1,234', 1.234, 'mm'],
    ['1234.5', 1234.5, 'mm'],
    ['0', 0, 'mm'],
    ['+1.6', 1.6, 'mm'],
  ])('reads %j as %d mm', (text, mm, unit) => {
    expect(parseLength(text)).toEqual({ ok: true, mm, unit });
  });

  it.each([
    ['', 'blank'],
    [' \u00A0 ', 'blank'],
    ['1,234.5', 'comma-and-point'],
    ['1.234,5', 'comma-and-point'],
    ['1.2.3', 'several-separators'],
    ['1,234,567', 'several-separators'],
    ['1e9', 'exponent'],
    ['1E-3 mm', 'exponent'],
    ['NaN', 'not-finite'],
    ['Infinity', 'not-finite'],
    ['-inf', 'not-finite'],
    ['∞', 'not-finite'],
    ['abc', 'no-number'],
    ['mm', 'no-number'],
    ['about 5', 'no-number'],
    ['12 abc', 'unit-unknown'],
    ['5 mm mm', 'unit-unknown'],
    ['5 constructor', 'unit-unknown'],
    ['5 constructor 6', 'several-numbers'],
    ["5'", 'unit-refused'],
    ['5 ft', 'unit-refused'],
    ['1′ 2″', 'unit-refused'],
    ['3 mil', 'unit-refused'],
    ['1 2', 'several-numbers'],
    ['1 234,5', 'several-numbers'],
    ['1 mm 2', 'several-numbers'],
    ['1/8', 'fraction-without-unit'],
    ['1/8 mm', 'fraction-of-unit'],
    ['1/0 in', 'fraction-malformed'],
    ['1 9/8 in', 'fraction-malformed'],
    ['1.5/8 in', 'fraction-malformed'],
    ['1/2/3 in', 'fraction-malformed'],
    ['12/ in', 'fraction-malformed'],
    ['12.', 'missing-digits'],
    ['--3', 'unclear'],
    ['3-', 'unclear'],
    ['-0,02', 'negative'],
    ['123456789012', 'too-many-digits'],
    ['1'.repeat(41), 'too-long'],
  ])('refuses %j as %s', (text, code) => {
    const refused = parseLength(text);
    expect(refused).toMatchObject({ ok: false, code });
    if (refused.ok) return;
    expect(refused.reason).toMatch(/^(is|has|holds|does|says|ends) .*[^.]$/);
    expect(refused.allowed).not.toBe('');
  });

  it('takes a bare fraction and a bare number for inches where that is the default', () => {
    expect(parseLength('1/8', 'in')).toEqual({ ok: true, mm: 3.175, unit: 'in' });
    expect(parseLength('0,125', 'in')).toEqual({ ok: true, mm: 3.175, unit: 'in' });
    expect(parseLength('3,2 mm', 'in')).toEqual({ ok: true, mm: 3.2, unit: 'mm' });
  });

  it('lets a zero offset be below 0', () => {
    expect(parseLength('-0,02', 'mm', { sign: 'any' })).toEqual({ ok: true, mm: -0.02, unit: 'mm' });
    expect(parseLength('−1-1/8 in', 'mm', { sign: 'any' })).toEqual({ ok: true, mm: -28.575, unit: 'in' });
    expect(parseLength('-0', 'mm')).toEqual({ ok: true, mm: 0, unit: 'mm' });
  });

  it('rounds a conversion once', () => {
    // 25.4 is no binary number: 0.7 * 25.4 in doubles is 17.779999999999998, and the answer is 17.78.
    expect(0.7 * 25.4).not.toBe(17.78);
    expect(parseLength('0.7 in')).toMatchObject({ mm: 17.78 });
  });
});

describe('parseQuantity', () => {
  it.each([
    ['30°', 'angle', 30, 'deg'],
    ['-7,5 deg', 'angle', -7.5, 'deg'],
    ['45', 'temperature', 45, 'degC'],
    ['45 °C', 'temperature', 45, 'degC'],
    ['-5 ℃', 'temperature', -5, 'degC'],
    ['950', 'mass', 950, 'g'],
    ['7,4 kg', 'mass', 7400, 'kg'],
    // 16 lb x 453.59237 g; 16 oz are a pound.
    ['16 lb', 'mass', 7257.47792, 'lb'],
    ['16 oz', 'mass', 453.59237, 'oz'],
    ['2', 'count', 2, '1'],
    ['2 off', 'count', 2, '1'],
  ] as const)('reads %j as %s', (text, quantity, value, unit) => {
    expect(parseQuantity(text, quantity)).toEqual({ ok: true, value, unit });
  });

  it.each([
    ['0.5 rad', 'angle', 'unit-refused'],
    ['30 mm', 'angle', 'unit-unknown'],
    ['1/2°', 'angle', 'fraction-of-unit'],
    ['100 °F', 'temperature', 'unit-refused'],
    ['2.5', 'count', 'not-whole'],
    ['-2', 'count', 'negative'],
    ['2 mm', 'count', 'unit-unknown'],
  ] as const)('refuses %j as %s for %s', (text, quantity, code) => {
    expect(parseQuantity(text, quantity)).toMatchObject({ ok: false, code });
  });
});

describe('normaliseText', () => {
  it('brings marks and spaces to one', () => {
    expect(normaliseText(' 1½″ ')).toBe('1 1/2"');
  });
});
