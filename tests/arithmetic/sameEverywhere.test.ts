import { runInNewContext } from 'node:vm';
import { describe, expect, test } from 'vitest';
import { power } from '../../src/arithmetic/power.ts';
import { sameEverywhere } from '../../src/arithmetic/sameEverywhere.ts';

// What Node itself has, from a realm where nothing was replaced: another implementation to hold ours to, to the last digits.
const { Math: plain } = runInNewContext('({ Math })') as { readonly Math: typeof Math };
const native = Object.fromEntries(
  Object.getOwnPropertyNames(plain).map((name) => [name, plain[name as 'sin']]),
);
sameEverywhere();

/** Digits as in the tables of Abramowitz and Stegun, "Handbook of Mathematical Functions" (1964), chapters 4 and 1. */
test.each([
  ['sin', 1, 0.8414709848078965],
  ['cos', 1, 0.5403023058681398],
  ['tan', 1, 1.5574077246549023],
  ['asin', 0.5, 0.5235987755982989],
  ['acos', 0.5, 1.0471975511965979],
  ['atan', 0.5, 0.4636476090008061],
  ['exp', 0.5, 1.6487212707001282],
  ['log', 3, 1.0986122886681098],
  ['log10', 3, 0.47712125471966244],
  ['sinh', 1, 1.1752011936438014],
  ['cosh', 1, 1.5430806348152437],
  ['tanh', 1, 0.7615941559557649],
  ['cbrt', 2, 1.2599210498948732],
] as const)('%s %f is %f', (name, x, value) => {
  expect(Math.abs(Math[name](x) / value - 1)).toBeLessThan(4e-16);
});

const names = [
  ...['sin', 'cos', 'tan', 'asin', 'acos', 'atan', 'exp', 'expm1', 'log', 'log1p', 'log10'],
  ...['sinh', 'cosh', 'tanh', 'cbrt'],
] as const;
const odd = [0, -0, 1, -1, 1e-300, -1e-300, 710, -700, 1e300, Infinity, -Infinity, NaN];

describe('as the standard has it', () => {
  test.each(names)('%s of what is odd', (name) => {
    for (const x of odd) {
      const [given, wanted] = [Math[name as 'sin'](x), native[name]!(x)];
      if (!Number.isFinite(wanted) || wanted === 0) expect(given, `${x}`).toBe(wanted);
      else expect(Math.abs(given / wanted - 1), `${x}`).toBeLessThan(2e-13);
    }
  });

  test('atan2 and hypot of what is odd', () => {
    for (const y of [...odd, 3]) {
      for (const x of [...odd, -4]) {
        const [angle, wanted] = [Math.atan2(y, x), native.atan2!(...([y, x] as unknown as [number]))];
        if (Number.isNaN(wanted)) expect(angle).toBeNaN();
        else if (wanted === 0) expect(angle, `${y} ${x}`).toBe(wanted);
        // So small an angle that its sine has run out of digits.
        else if (Math.abs(wanted) > 1e-290)
          expect(Math.abs(angle / wanted - 1), `${y} ${x}`).toBeLessThan(1e-15);
        const [long, far] = [Math.hypot(y, x), native.hypot!(...([y, x] as unknown as [number]))];
        if (!Number.isFinite(far) || far === 0) expect(long, `${y} ${x}`).toBe(far);
        else expect(Math.abs(long / far - 1), `${y} ${x}`).toBeLessThan(1e-15);
      }
    }
    expect([Math.hypot(), Math.hypot(3, 4), Math.hypot(2, 3, 6)]).toEqual([0, 5, 7]);
  });

  test.each(names)('%s over its range, to a few units of the last digit', (name) => {
    const [from, to] = ['asin', 'acos'].includes(name)
      ? [-1, 1]
      : name.startsWith('log')
        ? [0.001, 50]
        : [-9, 9];
    for (let k = 0; k <= 2000; k++) {
      const x = from + ((to - from) * k) / 2000;
      const [given, wanted] = [Math[name as 'sin'](x), native[name]!(x)];
      expect(Math.abs(given - wanted), `${x}`).toBeLessThanOrEqual(1e-15 * Math.max(1, Math.abs(wanted)));
    }
  });
});

test('powers: exact where they can be, else to the last digits', () => {
  for (let k = 0; k <= 22; k++) expect(power(10, k)).toBe(Number(`1e${k}`));
  for (const [base, exponent, value] of [
    [3, 5, 243],
    [25.4, 3, 16387.064],
    [2, 0.5, Math.SQRT2],
    [0.9, 1.2, 0.8812335261248792],
    [4, -2, 0.0625],
  ] as const)
    expect(Math.abs(power(base, exponent) / value - 1)).toBeLessThan(3e-16);
});
