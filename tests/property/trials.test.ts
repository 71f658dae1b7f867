import { expect, it } from 'vitest';
import { plan } from '../../src/job/plan.ts';
import { Refused } from '../../src/job/problem.ts';
import { whatChanged } from '../../src/job/trial/whatChanged.ts';
import type { FeltWord, TrialRecord } from '../../src/job/trialSchema.ts';
import { demo, read } from '../job/demo.ts';
import { measured, record, tried, uncalibrated } from '../job/trial/bench.ts';
import { randomness } from '../simulation/randomness.ts';

const WORDS: readonly FeltWord[] = ['tight', 'right', 'loose'];

// Whatever people say of a print, contradictions and slips among it, the next plan is a plan.
it.each([
  ['a coupon', measured],
  ['no coupon', uncalibrated],
] as const)('any history leads to sizes and a chance, with %s', (_, change) => {
  const random = randomness(20261126);
  const base = read(demo(change));
  const opened = record(base);
  const ids = Object.keys(opened.sizes);
  const plain = plan(base).drawn;
  let moved = 0;
  for (let round = 0; round < 12; round++) {
    const trials = Array.from({ length: random.oneOf([1, 1, 2, 3, 6]) }, (): TrialRecord => {
      const about = ids.filter(() => random.uniform(0, 1) < 0.5);
      const sizes = Object.fromEntries(
        ids.map((id) => {
          const size = opened.sizes[id]!;
          return [id, { ...size, drawn: Math.max(0.3, size.drawn + random.normal(0.2)) }];
        }),
      );
      // One in twenty reads another thing altogether.
      const off = () => (random.uniform(0, 1) < 0.05 ? random.normal(0.5) : random.normal(0.05));
      const readings = Object.fromEntries(
        about.map((id) => [id, [(opened.sizes[id]!.predicted + off()).toFixed(2)]]),
      );
      return {
        ...{ ...opened, sizes },
        ...(random.uniform(0, 1) < 0.7 && { inspected: { readings } }),
        felt: Object.fromEntries(about.map((id) => [id, random.oneOf(WORDS)])),
      };
    });
    try {
      const prepared = tried(trials, change);
      const { interfaces, chance } = plan(prepared);
      expect(chance.part).toBeGreaterThanOrEqual(0);
      expect(chance.part).toBeLessThanOrEqual(1);
      for (const { drawn, clearance, u } of interfaces) {
        expect(Number.isFinite(clearance)).toBe(true);
        expect(drawn).toBeGreaterThan(0);
        expect(u).toBeGreaterThan(0);
        expect(u).toBeLessThan(0.5);
      }
      for (const { because } of whatChanged(prepared)) expect(because).toMatch(/^(felt|read|learnt)/);
      moved += interfaces.filter(({ id, drawn }) => Math.abs(drawn - plain[id]!) > 0.01).length;
    } catch (error) {
      // A size that no printer believed to be so far off can make is refused, as any such size is.
      if (!(error instanceof Refused)) throw error;
      expect(error.problems.every(({ code }) => code === 'size_not_reachable')).toBe(true);
    }
  }
  // So that it tested something.
  expect(moved).toBeGreaterThan(20);
});
