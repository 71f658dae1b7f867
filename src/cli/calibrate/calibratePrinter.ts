import { soundCalibration } from '../../job/coupon/soundCalibration.ts';
import type { Callipers } from '../../measure/types.ts';
import type { CalibrationReport, CouponReadings } from '../../printer/calibration/types.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { profileIn } from '../placedFiles.ts';
import { blaming } from '../refusedFile.ts';
import { writeEverywhere } from '../writeTogether.ts';

/** Calibrates a profile and writes it back over its file, whole or not at all, and only where nobody has changed it since it was
 *  read. Throws `RefusedFile`, nothing written. */
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
  const report = blaming(given.file, () => soundCalibration(profile, features, given));
  await writeEverywhere([await profileIn(path, report.profile)]);
  return report;
}
