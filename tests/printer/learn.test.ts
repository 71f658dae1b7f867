import { pseudoInverse } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { defaultPrinter } from '../../src/printer/defaultPrinter.ts';
import { learn } from '../../src/printer/learn.ts';
import { knownOf, withKnown } from '../../src/printer/parameters.ts';
import { printerProfileSchema } from '../../src/printer/profile.ts';
import { type Calibration, PARAMETERS, type PrinterProfile } from '../../src/printer/types.ts';
import { dice } from '../fit/plainDraws.ts';

/** A 4 mm post across x: clearance falls with scale and with growth on both sides. */
const post = { 'printer:scale.x': -4, 'printer:outerGrowth': -2, 'reading:socketWidth': 1 };

/** A calibration whose covariance is that of random loadings, on about the scale of a coupon. */
function calibrated(seed: number, shared = true): PrinterProfile {
  const { from } = dice(seed);
  const loadings = PARAMETERS.map(() => Array.from({ length: 14 }, () => from(-1, 1)));
  const size = PARAMETERS.map((parameter) => knownOf(defaultPrinter, parameter).u / 5);
  const covariance = PARAMETERS.map((_, i) =>
    PARAMETERS.map(
      (_, j) => size[i]! * size[j]! * loadings[i]!.reduce((sum, x, k) => sum + x * loadings[j]![k]!, 0),
    ),
  );
  const calibration: Calibration = {
    covariance,
    shared: shared
      ? [{ id: 'calliper:scale', label: 'callipers, scale', shift: size.map((u) => u * from(-1, 1)) }]
      : [],
    callipers: 'old ones',
    dof: 20,
    readings: {},
  };
  const known = Object.fromEntries(
    PARAMETERS.map((parameter, k) => [
      parameter,
      {
        value: knownOf(defaultPrinter, parameter).value,
        u: Math.sqrt(calibration.shared.reduce((sum, { shift }) => sum + shift[k]! ** 2, covariance[k]![k]!)),
      },
    ]),
  );
  return withKnown({ ...defaultPrinter, calibrated: '2026-11-20', calibration }, known);
}

describe('what a clearance teaches about a printer', () => {
  it('is the weighted mean of what was known and what was felt, for one parameter', () => {
    // Growth 0.05 +- 0.05 a side; a clearance that hangs on two sides came out 0.04 tighter: 0.02 a side, +- 0.05.
    const profile = { ...defaultPrinter, outerGrowth: { value: 0.05, u: 0.05 } };
    const { value, u } = learn(profile, { 'printer:outerGrowth': -2 }, -0.04, 0.1 ** 2).outerGrowth;
    expect(value).toBeCloseTo(0.06, 12);
    expect(u).toBeCloseTo(0.05 / Math.SQRT2, 12);
  });

  it('goes to each parameter by its share of the doubt', () => {
    const learnt = learn(defaultPrinter, post, -0.03, 0);
    const shares = [16 * defaultPrinter.scale.x.u ** 2, 4 * defaultPrinter.outerGrowth.u ** 2];
    const total = shares[0]! + shares[1]!;
    expect(-4 * (learnt.scale.x.value - defaultPrinter.scale.x.value)).toBeCloseTo(
      (-0.03 * shares[0]!) / total,
      12,
    );
    expect(-2 * (learnt.outerGrowth.value - defaultPrinter.outerGrowth.value)).toBeCloseTo(
      (-0.03 * shares[1]!) / total,
      12,
    );
    const { scale, outerGrowth, ...others } = learnt;
    const { scale: before, outerGrowth: _, ...same } = defaultPrinter;
    expect(others).toEqual(same);
    expect(scale.y).toEqual(before.y);
    expect(outerGrowth.u).toBeLessThan(defaultPrinter.outerGrowth.u);
  });

  it.each([1, 2, 3, 4, 5])('is least squares with the observation appended (%i)', (seed) => {
    const profile = calibrated(seed, false);
    const [shift, variance] = [0.05, 0.03 ** 2];
    const learnt = learn(profile, post, shift, variance);
    // Normal equations in information form: (P^-1 + h h' / r) x = h z / r, an inverse the update never takes.
    const information = pseudoInverse(profile.calibration!.covariance.map((row) => [...row]) as never);
    const h = PARAMETERS.map((parameter) => post[`printer:${parameter}` as keyof typeof post] ?? 0);
    for (let i = 0; i < h.length; i++)
      for (let j = 0; j < h.length; j++)
        information.set(i, j, information.get(i, j) + (h[i]! * h[j]!) / variance);
    const covariance = pseudoInverse(information);
    PARAMETERS.forEach((parameter, i) => {
      const by = h.reduce((sum, x, j) => sum + (covariance.get(i, j) * x * shift) / variance, 0);
      const [now, was] = [knownOf(learnt, parameter), knownOf(profile, parameter)];
      expect((now.value - was.value) / was.u).toBeCloseTo(by / was.u, 6);
      expect(now.u / Math.sqrt(covariance.get(i, i))).toBeCloseTo(1, 6);
      PARAMETERS.forEach((other, j) => {
        const scale = was.u * knownOf(profile, other).u;
        expect(learnt.calibration!.covariance[i]![j]! / scale).toBeCloseTo(covariance.get(i, j) / scale, 6);
      });
    });
  });

  it.each([6, 7, 8])(
    'leaves of shared causes and of the rest together what Kalman leaves of their sum (%i)',
    (seed) => {
      const profile = calibrated(seed);
      const learnt = learn(profile, post, 0.02, 0.02 ** 2);
      const full = ({ calibration }: PrinterProfile) =>
        calibration!.covariance.map((row, i) =>
          row.map((value, j) =>
            calibration!.shared.reduce((sum, { shift }) => sum + shift[i]! * shift[j]!, value),
          ),
        );
      const [before, after] = [full(profile), full(learnt)];
      const h = PARAMETERS.map((parameter) => post[`printer:${parameter}` as keyof typeof post] ?? 0);
      const ph = before.map((row) => row.reduce((sum, value, j) => sum + value * h[j]!, 0));
      const s = ph.reduce((sum, value, i) => sum + value * h[i]!, 0.02 ** 2);
      PARAMETERS.forEach((parameter, i) => {
        const { u } = knownOf(profile, parameter);
        const expected = before[i]![i]! - ph[i]! ** 2 / s;
        expect(after[i]![i]! / u ** 2).toBeCloseTo(expected / u ** 2, 9);
        expect(knownOf(learnt, parameter).u).toBeCloseTo(Math.sqrt(after[i]![i]!), 12);
        expect(knownOf(learnt, parameter).u).toBeLessThanOrEqual(u * (1 + 1e-12));
      });
      expect(printerProfileSchema.safeParse(learnt).success).toBe(true);
    },
  );

  it('gives two clearances in either order the same answer', () => {
    const bore = { 'printer:scale.y': 2, 'printer:boreShrink': -2, 'printer:boreCurvature': -0.5 };
    const profile = calibrated(9);
    const one = learn(learn(profile, post, 0.03, 4e-4), bore, -0.02, 9e-4);
    // The second observation of each order is against what the first has moved.
    const movedBy = (from: PrinterProfile, to: PrinterProfile, row: Readonly<Record<string, number>>) =>
      PARAMETERS.reduce(
        (sum, parameter) =>
          sum +
          (row[`printer:${parameter}`] ?? 0) *
            (knownOf(to, parameter).value - knownOf(from, parameter).value),
        0,
      );
    const first = learn(
      profile,
      bore,
      -0.02 + movedBy(profile, learn(profile, post, 0.03, 4e-4), bore),
      9e-4,
    );
    const other = learn(first, post, 0.03 - movedBy(profile, first, post), 4e-4);
    for (const parameter of PARAMETERS) {
      expect(knownOf(other, parameter).value).toBeCloseTo(knownOf(one, parameter).value, 12);
      expect(knownOf(other, parameter).u).toBeCloseTo(knownOf(one, parameter).u, 12);
    }
  });

  it('learns nothing from a verdict that says nothing, or of what hangs on no parameter', () => {
    expect(learn(defaultPrinter, post, 0, Infinity)).toBe(defaultPrinter);
    expect(learn(defaultPrinter, { 'reading:bar': 1, 'printer:layerRounding': 1 }, 0.1, 0.01)).toBe(
      defaultPrinter,
    );
  });

  it('refuses what is no number', () => {
    expect(() => learn(defaultPrinter, post, Number.NaN, 0.1)).toThrow(/finite shift/);
    expect(() => learn(defaultPrinter, post, 0, -1)).toThrow(/variance of 0 or above/);
  });
});
