import { Matrix } from 'ml-matrix';
import { knownOf, withKnown } from './parameters.ts';
import { type Known, PARAMETERS, type Parameter, type PrinterProfile } from './types.ts';

/** What one clearance that was felt teaches about a printer: one step of linear Gaussian updating (Kalman 1960; as least
 *  squares with one observation more it is the same answer).
 *
 *  `sensitivity`: change of the clearance per unit of each parameter's error, keyed `printer:outerGrowth` and so on;
 *  what else is in it is left alone. `shift`: by how much the clearance is larger than this profile expects, mm.
 *  `variance`: of that shift for every reason but the profile (the verdict itself, the readings of the machine), mm^2.
 *  With a calibration its covariance takes part, so that what hangs together moves together; the shares that
 *  callipers have in the coupon count as doubt and shrink with the rest. That the machine may have been read with
 *  the same callipers is not set against it: the profile stays a little more doubtful than it need be.
 *  Without one, the doubts stand each for itself and no correlation is kept.
 *  Nothing comes of an infinite variance or of a clearance that hangs on no parameter. The day of calibration stays.
 *  Throws `RangeError` unless shift is finite and variance is 0 or above.
 *  @example outerGrowth 0.05 +- 0.05, sensitivity -2, shift -0.04, variance 0.01 // => 0.06 +- 0.0354 */
export function learn(
  profile: PrinterProfile,
  sensitivity: Readonly<Record<string, number>>,
  shift: number,
  variance: number,
): PrinterProfile {
  if (!Number.isFinite(shift) || !(variance >= 0))
    throw new RangeError(
      `learn requires a finite shift and a variance of 0 or above (shift ${shift} mm, variance ${variance} mm2)`,
    );
  const row = PARAMETERS.map((parameter) => sensitivity[`printer:${parameter}`] ?? 0);
  const known = PARAMETERS.map((parameter) => knownOf(profile, parameter));
  const { calibration } = profile;
  const own = calibration
    ? new Matrix(calibration.covariance.map((line) => [...line]))
    : Matrix.diag(known.map(({ u }) => u ** 2));
  const shared = (calibration?.shared ?? []).map(({ shift: by }) => Matrix.columnVector([...by]));

  const h = Matrix.rowVector(row);
  const whole = shared.reduce((sum, by) => sum.add(by.mmul(by.transpose())), own.clone());
  const towards = whole.mmul(h.transpose());
  const expected = h.mmul(towards).get(0, 0);
  if (variance === Infinity || !(expected > 0)) return profile;

  const gain = towards.div(expected + variance);
  const kept = Matrix.eye(PARAMETERS.length).sub(gain.mmul(h));
  // Joseph's form: what is left stays symmetric and without negative variances.
  const left = kept.clone().mmul(own).mmul(kept.transpose()).add(gain.mmul(gain.transpose()).mul(variance));
  const shifts = shared.map((by) => kept.mmul(by).to1DArray());
  const values = PARAMETERS.map((parameter, k): [Parameter, Known] => {
    const spread = shifts.reduce((sum, by) => sum + by[k]! ** 2, left.get(k, k));
    return [parameter, { value: known[k]!.value + gain.get(k, 0) * shift, u: Math.sqrt(spread) }];
  });
  // A parameter the clearance does not hang on, by itself or through others, keeps its digits.
  const moved = values.filter((_, k) => gain.get(k, 0) !== 0);
  const updated = withKnown(profile, Object.fromEntries(moved));
  if (!calibration) return updated;
  return {
    ...updated,
    calibration: {
      ...calibration,
      covariance: symmetric(left).to2DArray(),
      shared: calibration.shared.map((cause, k) => ({ ...cause, shift: shifts[k]! })),
    },
  };
}

const symmetric = (matrix: Matrix): Matrix => Matrix.add(matrix, matrix.transpose()).div(2);
