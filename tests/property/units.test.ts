import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatLength, formatNumber, parseLength, parseQuantity } from '../../src/units/index.ts';

const seed = 20250101;
const check = (property: fc.IRawProperty<unknown>, runs = 2000) =>
  fc.assert(property, { seed, numRuns: runs });

const quantity = fc.constantFrom('length', 'angle', 'temperature', 'count');

/** Hundredths of a millimetre, as callipers show them. */
const reading = fc.integer({ min: 1, max: 100_000 }).map((hundredths) => hundredths / 100);

describe('parsing', () => {
  it('never throws, and what it understands is a finite number', () => {
    const pieces = fc.array(
      fc.constantFrom(...'0123456789.,/- +eE"\'′″½°'.split(''), ' mm', 'in', 'ft', 'NaN', '\u00A0'),
      { maxLength: 12 },
    );
    let understood = 0;
    check(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          pieces.map((parts) => parts.join('')),
        ),
        quantity,
        fc.constantFrom('positive' as const, 'any' as const),
        (text, of, sign) => {
          const parsed = parseQuantity(text, of, { sign });
          if (!parsed.ok) {
            expect(parsed.reason).not.toBe('');
            return;
          }
          understood += 1;
          expect(Number.isFinite(parsed.value)).toBe(true);
          if (sign === 'positive') expect(parsed.value).toBeGreaterThanOrEqual(0);
        },
      ),
      5000,
    );
    // The texts are near enough to numbers for the claim to mean something.
    expect(understood).toBeGreaterThan(100);
  });

  it('reads back what is formatted, to half the last digit written', () => {
    check(
      fc.property(
        fc.double({ min: -900, max: 900, noNaN: true }),
        fc.option(fc.double({ min: 1e-6, max: 20, noNaN: true }), { nil: undefined }),
        (mm, u) => {
          const text = formatLength(mm, u);
          const decimals = formatNumber(mm, u).split('.')[1]?.length ?? 0;
          const parsed = parseLength(text, 'in', { sign: 'any' });
          expect(parsed.ok && Math.abs(parsed.mm - mm)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-12);
        },
      ),
    );
  });

  it('reads a calliper reading exactly, with comma or point', () => {
    check(
      fc.property(reading, (mm) => {
        const text = mm.toFixed(2);
        expect(parseLength(text)).toEqual({ ok: true, mm, unit: 'mm' });
        expect(parseLength(text.replace('.', ','))).toEqual({ ok: true, mm, unit: 'mm' });
      }),
    );
  });

  it('has inches, fractions of them and millimetres agree', () => {
    check(
      fc.property(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 1, max: 63 }), (whole, parts) => {
        const decimal = whole + parts / 64;
        const fraction = parseLength(`${whole} ${parts}/64 in`);
        expect(parseLength(`${decimal.toFixed(6)}"`)).toEqual(fraction);
        expect(parseLength(`${whole}-${parts}/64`, 'in')).toEqual(fraction);
        expect(fraction.ok && fraction.mm).toBeCloseTo(decimal * 25.4, 10);
      }),
    );
  });
});
