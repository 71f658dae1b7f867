import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decimal } from '../../../src/donor/read/decimal.ts';

const of = (text: string): number | undefined => {
  const bytes = new TextEncoder().encode(`<${text}>`);
  return decimal(bytes, 1, bytes.length - 1);
};

test('reads every number as the language itself does, to the last bit', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
        fc.float({ noNaN: true, noDefaultInfinity: true }).map(String),
        fc
          .tuple(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: 0, max: 17 }))
          .map(([x, n]) => x.toFixed(n)),
        fc
          .tuple(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.integer({ min: 0, max: 20 }))
          .map(([x, n]) => x.toExponential(n)),
      ),
      (text) => {
        expect(of(text)).toBe(Number(text));
      },
    ),
    { seed: 5, numRuns: 5000 },
  );
});

test('words for no number are NaN, anything else is undefined', () => {
  for (const word of ['nan', 'NaN', '-nan', 'inf', '-Infinity', '1.#IND', '-1.#QNAN', 'nan(ind)'])
    expect(of(word)).toBeNaN();
  for (const word of [
    '',
    '.',
    '+',
    'e5',
    '1e',
    '1e+',
    '1.2.3',
    '0x10',
    '12mm',
    '1,2,3',
    '1,234.5',
    '--1',
    '1'.repeat(500),
  ])
    expect(of(word), word).toBeUndefined();
  expect(of('1,5')).toBe(1.5);
  expect(of('1.5D2')).toBe(150);
});
