import type { Contributor } from '../measure/types.ts';
import type { PredictedSize } from './behaviour.ts';
import { parameterLabel } from './parameterLabel.ts';
import { type Calibration, PARAMETERS, type PrinterProfile } from './types.ts';

type Doubts = Pick<PredictedSize, 'sensitivity' | 'contributors'>;

/** The doubts of a predicted size as a measured coupon leaves them: instead of one independent cause a parameter, what
 *  the coupon does not tell apart hangs together, and what the callipers did to the coupon stands under the name it has
 *  in readings of the machine. A size that rests on no parameter of the coupon comes back as it is, and so does every
 *  size of a profile without `calibration`.
 *
 *  Causes of the fit: the covariance factored, L L^T; cause k is what parameter k leaves open once those before it are
 *  known, and carries its name (JCGM 102:2011, 6.4.8.4, does the same to draw from a joint distribution).
 *  `calliper:...`: signs are such that an error counts as true less read, as for readings of the machine, so that
 *  coupon and machine measured `withCallipers` of the same name cancel where they should; other callipers keep an
 *  id of their own. Sensitivities are per unit of the cause's `u`. */
export function calibrationDoubts(
  { sensitivity, contributors }: Doubts,
  profile: PrinterProfile,
  withCallipers: string,
): Doubts {
  const { calibration } = profile;
  if (!calibration) return { sensitivity, contributors };
  const row = PARAMETERS.map((parameter) => sensitivity[`printer:${parameter}`] ?? 0);
  if (row.every((effect) => effect === 0)) return { sensitivity, contributors };

  const fitted = new Set<string>(PARAMETERS.map((parameter) => `printer:${parameter}`));
  const causes = contributors.filter(({ id }) => !fitted.has(id));
  const effects: Record<string, number> = Object.fromEntries(
    causes.map(({ id }) => [id, sensitivity[id] ?? 0]),
  );
  const add = (cause: Contributor, effect: number): void => {
    if (effect === 0) return;
    causes.push(cause);
    effects[cause.id] = effect;
  };
  for (const [k, column] of factors(calibration).entries()) {
    const effect = product(row, column);
    const label = parameterLabel[PARAMETERS[k]!];
    add({ id: `printer:${PARAMETERS[k]!}`, label, u: 1, distribution: 'normal', dof: Infinity }, effect);
  }
  const same = calibration.callipers === withCallipers;
  for (const { id, label, shift } of calibration.shared) {
    const cause = same ? { id, label } : { id: `coupon:${id}`, label: `${label} of the coupon` };
    const distribution = id === 'calliper:landWidth' ? 'normal' : 'rectangular';
    add({ ...cause, u: 1, distribution, dof: Infinity }, product(row, shift));
  }
  return { sensitivity: effects, contributors: causes };
}

const factored = new WeakMap<Calibration, number[][]>();

/** Columns of L, in the order of the parameters; a parameter that those before it settle has a column of zeros. */
function factors(calibration: Calibration): number[][] {
  const known = factored.get(calibration);
  if (known) return known;
  const left = calibration.covariance.map((row) => [...row]);
  const columns = left.map((row, k) => {
    const variance = row[k]!;
    // What is left of rounding is nothing.
    if (!(variance > 1e-12 * calibration.covariance[k]![k]!)) return left.map(() => 0);
    const column = left.map((other, i) => (i < k ? 0 : other[k]! / Math.sqrt(variance)));
    for (let i = k; i < left.length; i++)
      for (let j = k; j < left.length; j++) left[i]![j]! -= column[i]! * column[j]!;
    return column;
  });
  factored.set(calibration, columns);
  return columns;
}

const product = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, k) => sum + value * b[k]!, 0);
