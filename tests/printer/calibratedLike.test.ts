import { expect, test } from 'vitest';
import { defaultCallipers } from '../../src/measure/callipers.ts';
import { calibratedLike } from '../../src/printer/calibratedLike.ts';
import { calibrate } from '../../src/printer/calibration/calibrate.ts';
import { coupon } from '../../src/printer/coupon/coupon.ts';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { knownOf } from '../../src/printer/parameters.ts';
import { PARAMETERS } from '../../src/printer/types.ts';
import { take } from '../simulation/callipers.ts';
import { randomness } from '../simulation/randomness.ts';
import { drawPrinter, print } from '../simulation/truePrinter.ts';

test('the coupon is promised to tell what simulated coupons tell, within a third', () => {
  const random = randomness(31);
  const { features } = coupon(defaultPrinter);
  const profiles = Array.from({ length: 25 }, () => {
    const printer = { ...drawPrinter(random), repeatability: 0.024 };
    const callipers = { error: random.uniform(-0.02, 0.02), landWidth: 0.3 };
    const readings = Object.fromEntries(
      features.map(({ id, nominal, measurand, reading, times }) => [
        id,
        take(times, print(printer, nominal, measurand, random), reading.round ?? false, callipers, random),
      ]),
    );
    return calibrate(defaultPrinter, features, readings, defaultCallipers, '2026-01-31').profile;
  });
  const promised = calibratedLike(defaultPrinter);
  for (const parameter of PARAMETERS) {
    const doubts = profiles.map((profile) => knownOf(profile, parameter).u).sort((a, b) => a - b);
    const median = doubts[Math.floor(doubts.length / 2)]!;
    expect(knownOf(promised, parameter).u / median, `${parameter} ${median}`).toBeGreaterThan(0.75);
    expect(knownOf(promised, parameter).u / median, `${parameter} ${median}`).toBeLessThan(1.33);
    expect(knownOf(promised, parameter).value).toBe(knownOf(defaultPrinter, parameter).value);
  }
});

test('what is known better already stays so', () => {
  const sure = { ...defaultPrinter, outerGrowth: { value: 0.04, u: 0.002 } };
  expect(calibratedLike(sure).outerGrowth).toEqual({ value: 0.04, u: 0.002 });
});
