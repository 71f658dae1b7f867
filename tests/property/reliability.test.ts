import { beforeAll, describe, expect, it } from 'vitest';
import { type FirstPrint, firstPrints } from '../simulation/firstPrints.ts';
import { rate, reliability } from '../simulation/reliability.ts';

// Printers, machines, callipers and hands are drawn at random and print by plain arithmetic of their own
// (tests/simulation); `npm run bench` does the same by the thousand and prints the table.

/** As the simulation is seeded, these are not statistical tests but one draw each, held to what may be expected of it. */
const SEED = 20261125;

describe('first prints after a coupon, readings as the sheet asks', () => {
  let prints: FirstPrint[];
  beforeAll(() => {
    prints = firstPrints({ calibrated: true }, { seed: SEED, printers: 400, partsEach: 2 });
  });

  it('fit in at least 95 %, as they are said to', () => {
    const achieved = rate(prints.map(({ fitted }) => fitted));
    const stated = prints.reduce((sum, one) => sum + one.stated, 0) / prints.length;
    expect(achieved).toBeGreaterThanOrEqual(0.95);
    // Three standard errors of a rate of 95 % in 800.
    expect(Math.abs(achieved - stated)).toBeLessThan(0.023);
  });

  it('come out as far from the expected clearance as was said', () => {
    for (const k of [0, 1] as const) {
      const scores = prints.map((one) => one.scores[k]);
      const mean = scores.reduce((sum, z) => sum + z, 0) / scores.length;
      const variance = scores.reduce((sum, z) => sum + z * z, 0) / scores.length;
      // Three standard errors of mean and variance of 800 standard normal draws, of which two share a printer.
      expect(Math.abs(mean)).toBeLessThan(0.15);
      expect(Math.abs(variance - 1)).toBeLessThan(0.2);
    }
  });

  it('fit where drawing the reading, or one allowance for everything, does not', () => {
    expect(rate(prints.map(({ straight }) => straight))).toBeLessThan(0.1);
    const best = Math.max(...[0, 1, 2, 3].map((k) => rate(prints.map(({ allowed }) => allowed[k]!))));
    expect(best).toBeLessThan(0.5);
  });
});

it.each([
  ['no coupon', { calibrated: false, readings: [3, 5], widths: [0.3, 2.5] }],
  ['a coupon and narrow windows', { calibrated: true, readings: [3, 5], widths: [0.1, 1] }],
] as const)('%s: what is said to be likely happens as often', (_, bench) => {
  const prints = firstPrints(bench, { seed: SEED + 1, printers: 450, partsEach: 1 });
  const fifths = [0, 1, 2, 3, 4].map((k) =>
    prints.filter(({ stated }) => Math.min(4, Math.floor(stated * 5)) === k),
  );
  for (const fifth of fifths) {
    expect(fifth.length).toBeGreaterThan(40);
    const achieved = rate(fifth.map(({ fitted }) => fitted));
    const stated = fifth.reduce((sum, one) => sum + one.stated, 0) / fifth.length;
    const error = Math.sqrt((stated * (1 - stated)) / fifth.length);
    expect(Math.abs(achieved - stated)).toBeLessThan(0.03 + 2 * error);
  }
  expect(reliability(prints).length).toBeGreaterThanOrEqual(9);
});
