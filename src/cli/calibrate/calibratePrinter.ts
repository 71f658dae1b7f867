import writeFileAtomic from 'write-file-atomic';
import { keysAt } from '../../job/keysAt.ts';
import { problemsOf } from '../../job/zodProblems.ts';
import type { Callipers } from '../../measure/types.ts';
import { calibrate } from '../../printer/calibration/calibrate.ts';
import type { CalibrationReport, CouponReadings } from '../../printer/calibration/types.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { printerProfileSchema } from '../../printer/profile.ts';
import { profileText } from '../../printer/profileText.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { RefusedFile } from '../refusedFile.ts';
import { systemProblem } from '../systemProblem.ts';

/** Calibrates a profile and writes it back over its file, whole or not at all. Readings that make a machine no profile
 *  may hold are refused: they are of another coupon, or in another unit. Throws `RefusedFile`, nothing written. */
export async function calibratePrinter(
  path: string,
  profile: PrinterProfile,
  features: readonly CouponFeature[],
  given: {
    readonly readings: CouponReadings;
    readonly callipers: Callipers;
    readonly date: string;
    /** File of the readings, to blame. */
    readonly file: string;
  },
): Promise<CalibrationReport> {
  const report = calibrate(profile, features, given.readings, given.callipers, given.date);
  const judged = printerProfileSchema.safeParse(report.profile);
  if (!judged.success) {
    const problems = problemsOf(
      report.profile,
      judged.error,
      keysAt(printerProfileSchema),
      'a printer profile',
    );
    throw new RefusedFile(
      given.file,
      problems.map((problem) => ({
        ...problem,
        reason: 'is what these readings come to, and no printer; are they of this coupon?',
      })),
    );
  }
  try {
    await writeFileAtomic(path, profileText(report.profile));
  } catch (error) {
    throw new RefusedFile(path, [systemProblem(error, '', 'a file that can be written to')]);
  }
  return report;
}
