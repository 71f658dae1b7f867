import { predictedSize } from './behaviour.ts';
import type { Measurand } from './measurand.ts';
import { knownOf } from './parameters.ts';
import { type Known, PARAMETERS, type PrinterProfile } from './types.ts';

/** Size at which something drawn comes off a printer, with the standard uncertainty of one print, mm: that of the parameters,
 *  as they hang together where a coupon was measured, and the scatter from print to print. */
export function printsAs(drawn: number, measurand: Measurand, profile: PrinterProfile): Known {
  const { value, sensitivity } = predictedSize(drawn, measurand, profile);
  const row = PARAMETERS.map((parameter) => sensitivity[`printer:${parameter}`] ?? 0);
  const { calibration, repeatability } = profile;
  const known = calibration
    ? row.reduce(
        (sum, a, k) => sum + a * row.reduce((inner, b, l) => inner + b * calibration.covariance[k]![l]!, 0),
        0,
      ) +
      calibration.shared.reduce(
        (sum, { shift }) => sum + row.reduce((inner, a, k) => inner + a * shift[k]!, 0) ** 2,
        0,
      )
    : PARAMETERS.reduce((sum, parameter, k) => sum + (row[k]! * knownOf(profile, parameter).u) ** 2, 0);
  return { value, u: Math.sqrt(repeatability ** 2 + known) };
}
