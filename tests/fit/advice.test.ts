import { expect, test } from 'vitest';
import { advise, type NextStep } from '../../src/fit/advice.ts';
import { fitChance } from '../../src/fit/chance.ts';
import type { FitProblem } from '../../src/fit/types.ts';

/** A single normal line that holds with the chance of +-0.1 mm at this spread. */
const at = (spread: number): FitProblem => ({
  lines: [{ id: 'a', mean: 0, window: { lo: -0.1, hi: 0.1 }, sensitivity: {}, spread }],
  contributors: [],
});
const now = (spread: number): number => fitChance(at(spread)).part;
const step = (id: string, minutes: number, spread: number): NextStep => ({
  id,
  sentence: id,
  minutes,
  changed: at(spread),
});

test('takes the cheapest step that matters, not the largest gain', () => {
  // 68 % now; readings to 79 %, coupon to 95 %.
  const advice = advise(now(0.1), [step('coupon', 90, 0.05), step('readings', 4, 0.08)]);
  expect(advice.best!.id).toBe('readings');
  expect(advice.from).toBeCloseTo(0.683, 3);
  expect(advice.to).toBeCloseTo(0.789, 3);
  expect(advice.all.map((entry) => entry.step.id)).toEqual(['readings', 'coupon']);
});

test('never takes a trifle that gains less than a third of the largest gain', () => {
  // 68 % to 72 % for a minute against 95 % for ninety.
  const advice = advise(now(0.1), [step('trifle', 1, 0.092), step('coupon', 90, 0.05)]);
  expect(advice.best!.id).toBe('coupon');
  expect(advice.all[1]).toMatchObject({ matters: true, step: { id: 'trifle' } });
});

test('says nothing when nothing gains two points', () => {
  const advice = advise(now(0.1), [step('a', 1, 0.099), step('worse', 1, 0.2)]);
  expect(advice.best).toBeNull();
  expect(advice.to).toBe(advice.from);
  expect(advice.all.map((entry) => entry.matters)).toEqual([false, false]);
  expect(advice.all[1]!.gain).toBeLessThan(0);
});

test('above 95 % a third of the gap to certainty is enough', () => {
  // 98.8 % to 99.5 %: 0.7 points, more than half the gap.
  expect(advise(now(0.04), [step('a', 5, 0.0355)]).best!.id).toBe('a');
  expect(advise(now(0.04), [step('a', 5, 0.0395)]).best).toBeNull();
});

test('is the same whatever the order of the steps, and refuses one that costs nothing', () => {
  const steps = [step('a', 10, 0.06), step('b', 20, 0.05), step('c', 5, 0.07)];
  expect(advise(now(0.1), steps).best!.id).toBe(advise(now(0.1), [...steps].reverse()).best!.id);
  expect(advise(now(0.1), []).best).toBeNull();
  expect(() => advise(now(0.1), [step('free', 0, 0.05)])).toThrow(
    expect.objectContaining({ code: 'step_minutes_not_positive' }),
  );
});
