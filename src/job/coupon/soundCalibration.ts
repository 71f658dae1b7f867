import type { Callipers } from '../../measure/types.ts';
import { calibrate } from '../../printer/calibration/calibrate.ts';
import type { CalibrationReport, CouponReadings } from '../../printer/calibration/types.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { printerProfileSchema } from '../../printer/profile.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { keysAt } from '../keysAt.ts';
import { Refused } from '../problem.ts';
import { problemsOf } from '../zodProblems.ts';

/** Calibrates a profile by readings that passed `understandReadings`. Readings that make a machine no profile may hold are
 *  refused: they are of another coupon, or in another unit. Throws `Refused`. */
export function soundCalibration(
  profile: PrinterProfile,
  features: readonly CouponFeature[],
  {
    readings,
    callipers,
    date,
  }: { readonly readings: CouponReadings; readonly callipers: Callipers; readonly date: string },
): CalibrationReport {
  const report = calibrate(profile, features, readings, callipers, date);
  const judged = printerProfileSchema.safeParse(report.profile);
  if (judged.success) return report;
  const problems = problemsOf(
    report.profile,
    judged.error,
    keysAt(printerProfileSchema),
    'a printer profile',
  );
  throw new Refused(
    problems.map((problem) => ({
      ...problem,
      reason: 'is what these readings come to, and no printer; are they of this coupon?',
    })),
  );
}
