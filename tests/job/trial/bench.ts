import type { Prepared } from '../../../src/job/prepare.ts';
import { openTrial } from '../../../src/job/trial/openTrial.ts';
import type { TrialRecord } from '../../../src/job/trialSchema.ts';
import { drawCallipers, told } from '../../simulation/callipers.ts';
import { afterCoupon } from '../../simulation/firstPrints.ts';
import { randomness } from '../../simulation/randomness.ts';
import { drawPrinter } from '../../simulation/truePrinter.ts';
import { demo, type PlainJob, read } from '../demo.ts';

/** The demo job with some trials, changed; what it was printed from is told by `record`. */
export const tried = (
  trials: readonly TrialRecord[],
  change: (job: PlainJob) => void = () => undefined,
): Prepared =>
  read(
    demo((job) => {
      change(job);
      Object.assign(job, { trials });
    }),
  );

/** A print of a job as it would be drawn, and what came of it. */
export const record = (prepared: Prepared, came: Partial<TrialRecord> = {}): TrialRecord => ({
  ...openTrial(prepared, '2026-11-26', 'a'.repeat(64)),
  ...came,
});

/** Printer 1 without a coupon, as it was told by a few questions. */
export function uncalibrated(job: PlainJob): void {
  const { calibration: _, ...printer } = job.printer;
  job.printer = {
    ...printer,
    calibrated: null,
    outerGrowth: { value: 0.05, u: 0.0577 },
    boreShrink: { value: 0.085, u: 0.0375 },
    repeatability: 0.0275,
  };
}

/** A printer drawn at random, known by a coupon that was read with the callipers of the job. */
export function measured(job: PlainJob): void {
  const random = randomness(20261126);
  job.printer = afterCoupon(drawPrinter(random), drawCallipers(random), random);
  job.callipers = { ...told };
}
