import { expect, test } from 'vitest';
import { aimOf, fitClasses, ONE_SIDED_AIM, windowOf } from '../../src/fit/classes.ts';

// Common practice, no source: windows of printed plastic, diametral mm.
test('the classes loosen from press to free without overlap of their middles', () => {
  const order = [fitClasses.press, fitClasses.snug, fitClasses.sliding, fitClasses.free];
  for (let i = 1; i < order.length; i++) {
    expect(order[i]!.lo).toBeGreaterThanOrEqual(order[i - 1]!.lo);
    expect(aimOf(order[i]!)).toBeGreaterThan(aimOf(order[i - 1]!));
  }
  expect(windowOf('sliding')).toEqual({ lo: 0.1, hi: 0.3 });
});

test('aims for the middle, inside the finite end of a one-sided window, or where it is told', () => {
  expect(aimOf('press')).toBeCloseTo(-0.075, 12);
  expect(aimOf({ lo: 0.3, hi: Infinity })).toBeCloseTo(0.3 + ONE_SIDED_AIM, 12);
  expect(aimOf({ lo: -Infinity, hi: 0 })).toBeCloseTo(-ONE_SIDED_AIM, 12);
  expect(aimOf({ lo: 0, hi: 1, aim: 0.2 })).toBe(0.2);
});

test.each([
  [{ lo: 0.2, hi: 0.2 }, 'window_empty'],
  [{ lo: 0.3, hi: 0.1 }, 'window_empty'],
  [{ lo: Number.NaN, hi: 0.1 }, 'window_empty'],
  [{ lo: -Infinity, hi: Infinity }, 'window_unbounded'],
  [{ lo: 0, hi: 1, aim: 1.1 }, 'aim_outside_window'],
] as const)('refuses %o: %s', (window, code) => {
  expect(() => windowOf(window)).toThrow(expect.objectContaining({ code }));
});
