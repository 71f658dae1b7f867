import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitChance } from '../../src/fit/chance.ts';
import type { FitProblem } from '../../src/fit/types.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const problem: fc.Arbitrary<FitProblem> = fc
  .tuple(
    fc.array(
      fc.record({
        u: number(0, 0.06),
        distribution: fc.constantFrom('normal', 'rectangular', 'student' as const),
        dof: fc.integer({ min: 1, max: 20 }),
      }),
      { maxLength: 8 },
    ),
    fc.array(
      fc.record({
        mean: number(-0.3, 0.6),
        lo: number(-0.2, 0.3),
        width: fc.oneof(number(0.05, 0.4), fc.constant(Infinity)),
        spread: number(1e-4, 0.1),
        spreadDof: fc.option(fc.integer({ min: 3, max: 40 }), { nil: undefined }),
        effects: fc.array(fc.oneof(fc.constant(0), number(-2, 2)), { minLength: 8, maxLength: 8 }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
  )
  .map(([causes, lines]) => ({
    contributors: causes.map((c, k) => ({ ...c, id: `c${k}`, label: `c${k}` })),
    lines: lines.map(({ mean, lo, width, spread, spreadDof, effects }, j) => ({
      id: `l${j}`,
      mean,
      spread,
      spreadDof,
      window: { lo, hi: lo + width },
      sensitivity: Object.fromEntries(causes.map((_, k) => [`c${k}`, effects[k]!])),
    })),
  }));

test('chances are chances: between 0 and 1, and the part no likelier than any line', () => {
  fc.assert(
    fc.property(problem, (p) => {
      const { part, lines, shares, partShares } = fitChance(p);
      const each = Object.values(lines);
      expect(part).toBeGreaterThanOrEqual(0);
      expect(part).toBeLessThanOrEqual(Math.min(...each) + 1e-12);
      expect(part).toBeGreaterThanOrEqual(1 - each.reduce((sum, c) => sum + 1 - c, 0) - 1e-9);
      expect(Math.max(...each)).toBeLessThanOrEqual(1);
      for (const list of [...Object.values(shares), partShares]) {
        expect(list.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
        for (let i = 1; i < list.length; i++) expect(list[i]!.share).toBeLessThanOrEqual(list[i - 1]!.share);
      }
      expect(fitChance(p)).toEqual({ part, lines, shares, partShares });
    }),
    { seed: 1120, numRuns: 150 },
  );
});

test('a wider window never lessens the chance', () => {
  fc.assert(
    fc.property(problem, number(0, 0.1), (p, more) => {
      const wider = {
        ...p,
        lines: p.lines.map((line) => ({
          ...line,
          window: { lo: line.window.lo - more, hi: line.window.hi + more },
        })),
      };
      expect(fitChance(wider).part).toBeGreaterThanOrEqual(fitChance(p).part - 1e-9);
    }),
    { seed: 1121, numRuns: 100 },
  );
});

test('turning every clearance around changes nothing but rounding', () => {
  fc.assert(
    fc.property(problem, (p) => {
      const turned = {
        ...p,
        lines: p.lines.map((line) => ({
          ...line,
          mean: -line.mean,
          window: { lo: -line.window.hi, hi: -line.window.lo },
          sensitivity: Object.fromEntries(Object.entries(line.sensitivity).map(([id, a]) => [id, -a])),
        })),
      };
      const there = fitChance(p);
      const back = fitChance(turned);
      expect(Math.abs(back.part - there.part)).toBeLessThan(2e-3);
      for (const [id, c] of Object.entries(there.lines)) expect(back.lines[id]).toBeCloseTo(c, 4);
    }),
    { seed: 1122, numRuns: 100 },
  );
});

test('a little less doubt changes the chance a little: no jumps', () => {
  fc.assert(
    fc.property(problem, (p) => {
      const less = { ...p, contributors: p.contributors.map((c) => ({ ...c, u: c.u * 0.9999 })) };
      expect(Math.abs(fitChance(less).part - fitChance(p).part)).toBeLessThan(1.5e-3);
    }),
    { seed: 1123, numRuns: 100 },
  );
});
