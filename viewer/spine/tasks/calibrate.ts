import type { Family } from '../../../src/family/family.ts';
import { soundCalibration } from '../../../src/job/coupon/soundCalibration.ts';
import { toldCallipers } from '../../../src/job/coupon/toldCallipers.ts';
import { understandReadings } from '../../../src/job/coupon/understandReadings.ts';
import { make } from '../../../src/job/make.ts';
import { prepare } from '../../../src/job/prepare.ts';
import { Refused } from '../../../src/job/problem.ts';
import { parseJob } from '../../../src/job/readJob.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import { notDetermined } from '../../../src/printer/calibration/notDetermined.ts';
import type { CalibrationReport } from '../../../src/printer/calibration/types.ts';
import { coupon } from '../../../src/printer/coupon/coupon.ts';
import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import type { Parameter, PrinterProfile } from '../../../src/printer/types.ts';
import type { Remembered } from '../../../src/remembered/remembered.ts';
import type { ManifoldToplevel } from '../../../src/solid/kernel.ts';
import type { RefusedJob } from '../answers.ts';
import { orRefused } from './refusals.ts';

/** What the readings of a coupon come to. */
export interface CalibrationFacts {
  readonly report: CalibrationReport;
  /** Why a parameter stays as doubtful as it was, for those that do. */
  readonly undetermined: Readonly<Partial<Record<Parameter, string>>>;
  /** Chance that the job fits the first time, with its printer as it is and as it would be; null where none can be said. */
  readonly chance: { readonly before: number | null; readonly after: number | null };
}

/** Calibrates a printer by the readings of its coupon, taken with the callipers of the job and in its unit. */
export const calibrated = (
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  printer: PrinterProfile,
  texts: Readonly<Record<string, readonly string[]>>,
  date: string,
  known?: Remembered,
): CalibrationFacts | RefusedJob =>
  orRefused(() => {
    const { features } = coupon(printer);
    const { callipers, unit } = toldCallipers({}, { callipers: file.callipers, unit: file.unit });
    const readings = Object.entries(texts).map(([feature, given]) => ({
      feature,
      texts: given,
      where: named(feature, features),
    }));
    const understood = understandReadings({ readings, once: true }, features, callipers, unit);
    const report = soundCalibration(printer, features, { readings: understood, callipers, date });
    const undetermined = report.parameters
      .filter(({ determined }) => !determined)
      .map(({ parameter }) => [parameter, notDetermined(parameter, report, features)] as const);
    return {
      report,
      undetermined: Object.fromEntries(undetermined),
      chance: {
        before: chanceWith(kernel, families, file, known),
        after: chanceWith(kernel, families, { ...file, printer: report.profile as never }, known),
      },
    };
  });

const named = (id: string, features: readonly CouponFeature[]): string =>
  `reading ${features.find((feature) => feature.id === id)?.number ?? id}`;

/** Null while the job lacks readings. */
function chanceWith(
  kernel: ManifoldToplevel,
  families: readonly Family[],
  file: JobFile,
  known?: Remembered,
): number | null {
  try {
    const { job, family } = parseJob(file, families);
    return make(kernel, prepare(job, family), known).chance;
  } catch (error) {
    if (error instanceof Refused) return null;
    throw error;
  }
}
