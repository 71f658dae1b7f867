import fc from 'fast-check';
import { expect, test } from 'vitest';
import { predictedSize } from '../../src/printer/behaviour.ts';
import { calibrationDoubts } from '../../src/printer/calibrationDoubts.ts';
import type { Measurand } from '../../src/printer/measurand.ts';
import { type Calibration, PARAMETERS, type PrinterProfile } from '../../src/printer/types.ts';
import { printer } from './profile.ts';

const n = PARAMETERS.length;
const at = (parameter: (typeof PARAMETERS)[number]) => PARAMETERS.indexOf(parameter);

/** A covariance B B^T of `rank` at most, from columns B. */
const covarianceOf = (columns: readonly (readonly number[])[]): number[][] =>
  Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (_none, j) =>
      columns.reduce((sum, column) => sum + column[i]! * column[j]!, 0),
    ),
  );

const calibrated = (covariance: number[][], shared: Calibration['shared'] = []): PrinterProfile => ({
  ...printer(),
  calibrated: '2026-01-31',
  calibration: { covariance, shared, callipers: 'red pair', dof: 30, readings: {} },
});

const column = fc.array(
  fc.integer({ min: -500, max: 500 }).map((tenThousandths) => tenThousandths / 1e4),
  { minLength: n, maxLength: n },
);
const measurands: fc.Arbitrary<Measurand> = fc.record({
  kind: fc.constantFrom('bore', 'slot', 'post', 'rib'),
  direction: fc.constantFrom<[number, number, number]>([1, 0, 0], [0, 1, 0], [0, 0, 1], [0.6, 0.8, 0]),
});

test('factored doubts have the variance and the covariance of the calibration, at any rank', () => {
  const rank = fc.array(column, { minLength: 1, maxLength: n });
  fc.assert(
    fc.property(rank, fc.tuple(measurands, measurands), (columns, pair) => {
      const covariance = covarianceOf(columns);
      const profile = calibrated(covariance);
      const [one, other] = pair.map((measurand) => {
        const plain = predictedSize(5, measurand, profile);
        const row = PARAMETERS.map((parameter) => plain.sensitivity[`printer:${parameter}`] ?? 0);
        return { row, doubts: calibrationDoubts(plain, profile, 'red pair') };
      });
      const expected = (a: number[], b: number[]) =>
        a.reduce((sum, x, i) => sum + b.reduce((inner, y, j) => inner + x * covariance[i]![j]! * y, 0), 0);
      const got = (a: typeof one, b: typeof one) =>
        a!.doubts.contributors.reduce(
          (sum, { id, u }) =>
            sum + (a!.doubts.sensitivity[id] ?? 0) * (b!.doubts.sensitivity[id] ?? 0) * u * u,
          0,
        );
      // What adds up, before any of it cancels.
      const sum = (row: number[]) => row.reduce((total, x, i) => total + x * x * covariance[i]![i]!, 0);
      const scale = sum(one!.row) + sum(other!.row);
      expect(Math.abs(got(one, one) - expected(one!.row, one!.row))).toBeLessThanOrEqual(1e-9 * scale);
      expect(Math.abs(got(one, other) - expected(one!.row, other!.row))).toBeLessThanOrEqual(1e-9 * scale);
    }),
    { seed: 20261125, numRuns: 500 },
  );
});

test('callipers that read the coupon large make a post small by as much, under the name of the callipers', () => {
  // Posts read 0.03 mm large seem to grow 0.015 mm a side.
  const shift = PARAMETERS.map(() => 0);
  shift[at('outerGrowth')] = 0.015;
  const profile = calibrated(covarianceOf([]), [{ id: 'calliper:scale', label: 'callipers, scale', shift }]);
  const post = predictedSize(5, { kind: 'post', direction: [1, 0, 0] }, profile);
  const same = calibrationDoubts(post, profile, 'red pair');
  expect(same.contributors.map(({ id, distribution }) => [id, distribution])).toEqual([
    ['calliper:scale', 'rectangular'],
  ]);
  // As much as a reading of the machine with one standard error of 0.03 mm: the two cancel.
  expect(same.sensitivity['calliper:scale']! * same.contributors[0]!.u).toBeCloseTo(0.03, 12);
  const other = calibrationDoubts(post, profile, 'blue pair');
  expect(other.contributors.map(({ id }) => id)).toEqual(['coupon:calliper:scale']);
});

test('a profile without a calibration keeps one cause a parameter', () => {
  const post = predictedSize(5, { kind: 'post', direction: [1, 0, 0] }, printer());
  expect(calibrationDoubts(post, printer(), 'red pair')).toEqual({
    sensitivity: post.sensitivity,
    contributors: post.contributors,
  });
});
