import writeFileAtomic from 'write-file-atomic';
import { soundCalibration } from '../../job/coupon/soundCalibration.ts';
import type { Callipers } from '../../measure/types.ts';
import type { CalibrationReport, CouponReadings } from '../../printer/calibration/types.ts';
import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { profileText } from '../../printer/profileText.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';
import { systemProblem } from '../systemProblem.ts';

/** Calibrates a profile and writes it back over its file, whole or not at all. Throws `RefusedFile`, nothing written. */
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
  try {
    await writeFileAtomic(path, profileText(report.profile));
  } catch (error) {
    throw new RefusedFile(path, [systemProblem(error, '', 'a file that can be written to')]);
  }
  return report;
}
