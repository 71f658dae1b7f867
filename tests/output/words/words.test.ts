import { describe, expect, it } from 'vitest';
import { clearanceWindow, day, measured, percent, sideOf } from '../../../src/output/words/index.ts';

describe('percent', () => {
  it.each([
    [0.934, '93 %'],
    [0.994, '99 %'],
    [0.9951, '> 99 %'],
    [1, '> 99 %'],
    [0.004, '< 1 %'],
    [0.005, '1 %'],
  ])('says %f as %s', (chance, words) => expect(percent(chance)).toBe(words));
});

describe('day', () => {
  it('writes the month out, so that no country reads another day', () =>
    expect(day('2026-02-03')).toBe('3 Feb 2026'));
  it('leaves what is no date', () => expect(day('2026-13-03')).toBe('2026-13-03'));
});

describe('clearanceWindow', () => {
  it('names both ends', () => expect(clearanceWindow([-0.15, 0])).toBe('-0.15 .. 0.00'));
  it('names the one end there is', () => {
    expect(clearanceWindow([0.05, Infinity])).toBe('from 0.05');
    expect(clearanceWindow([-Infinity, 0.4])).toBe('up to 0.40');
  });
});

describe('measured', () => {
  it('tells which side is the good one', () => {
    expect(sideOf({ value: 1, limit: 2, unit: 'N', margin: 1 })).toBe('at most');
    expect(sideOf({ value: 3, limit: 2, unit: 'N', margin: -1 })).toBe('at most');
    expect(sideOf({ value: 3, limit: 2, unit: 'N', margin: 1 })).toBe('at least');
    expect(sideOf({ value: 1, limit: 2, unit: 'N', margin: -1 })).toBe('at least');
  });
  it('gives three digits, and no unit to a ratio', () => {
    expect(measured({ value: 1.234, limit: 0.2, unit: '1', margin: 1.034 })).toBe('1.23 (at least 0.2)');
    expect(measured({ value: 12.346, limit: null, unit: 'mm', margin: null })).toBe('12.3 mm');
    expect(measured({ value: null, limit: 2, unit: 'N', margin: null })).toBe('');
  });
});
