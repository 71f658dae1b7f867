import { describe, expect, it } from 'vitest';
import { rate } from '../simulation/reliability.ts';
import { type SecondPrint, secondPrints } from '../simulation/secondPrints.ts';

// Printers, machines, callipers, hands and feelings are drawn at random and print by plain arithmetic of their own
// (tests/simulation); `npx tsx tests/bench/reliability.ts` does the same by the thousand and prints the tables. As the
// simulation is seeded, these are one draw each, held to what may be expected of it.
const SEED = 20261126;

const mean = (prints: readonly SecondPrint[], of: (one: SecondPrint) => number) =>
  prints.reduce((sum, one) => sum + of(one), 0) / prints.length;
const fitted = (prints: readonly SecondPrint[]) => rate(prints.map(({ second }) => second.fitted));
/** Three standard errors of a rate. */
const doubt = (share: number, prints: readonly SecondPrint[]) =>
  3 * Math.sqrt((share * (1 - share)) / prints.length);

describe('second prints after a coupon, the first measured and felt', () => {
  const prints = secondPrints(
    { calibrated: true, inspects: true, feels: true },
    { seed: SEED, printers: 120 },
  );

  it('bring a part that fits by the second print in at least 99 % of jobs', () => {
    const done = prints.filter(({ first, second }) => first.fitted || second.fitted).length;
    expect(done / prints.length).toBeGreaterThanOrEqual(0.99);
  });

  it('fit as often as is said, and near what scatter leaves to a printer known exactly', () => {
    const said = mean(prints, ({ second }) => second.stated);
    expect(Math.abs(fitted(prints) - said)).toBeLessThan(doubt(said, prints));
    expect(fitted(prints)).toBeGreaterThan(rate(prints.map(({ ceiling }) => ceiling)) - 0.03);
  });
});

describe.each([
  ['felt', { inspects: false, feels: true }],
  ['measured', { inspects: true, feels: false }],
] as const)('second prints without a coupon, the first %s', (_, bench) => {
  const prints = secondPrints({ calibrated: false, ...bench }, { seed: SEED + 1, printers: 150 });

  it('fit far oftener than first prints, and as often as is said', () => {
    expect(fitted(prints)).toBeGreaterThan(rate(prints.map(({ first }) => first.fitted)) + 0.3);
    const said = mean(prints, ({ second }) => second.stated);
    expect(Math.abs(fitted(prints) - said)).toBeLessThan(0.01 + doubt(said, prints));
  });

  it('come out as far from the expected clearance as was said', () => {
    for (const k of [0, 1] as const) {
      const variance = mean(prints, ({ scores }) => scores[k] ** 2);
      expect(Math.abs(mean(prints, ({ scores }) => scores[k]))).toBeLessThan(3 / Math.sqrt(prints.length));
      // Three standard errors of the variance of normal draws, and the tenth that a normal law misses of a range cut off.
      expect(Math.abs(variance - 1)).toBeLessThan(0.1 + 3 * Math.sqrt(2 / prints.length));
    }
  });
});
