import type { PrinterProfile } from '../../printer/types.ts';
import { canonical } from '../hash.ts';
import { profileHash } from '../profileHash.ts';
import type { TrialRecord } from '../trialSchema.ts';

/** What was known of a printer apart from some trials. */
export interface PriorProfile {
  readonly printer: PrinterProfile;
  /** Trials that this profile has learnt from all the same: they say nothing new of the printer. */
  readonly heard: ReadonlySet<TrialRecord>;
}

/** Today's profile less what it learnt from these trials, so that none of them counts twice. It is taken back lesson by
 *  lesson, last first, as far as the fingerprints lead. Lessons it cannot be freed of, because another job taught it
 *  since, stay in it, and their trials are `heard`. A coupon of a printer that was calibrated before starts from any
 *  printer, so that it has forgotten them; one of a printer that was not has taken them in. */
export function priorProfile(today: PrinterProfile, records: readonly TrialRecord[]): PriorProfile {
  const taught = records.filter(({ learnt }) => learnt !== undefined);
  let printer = today;
  while (taught.length > 0) {
    const { before, after } = taught.at(-1)!.learnt!;
    if (after !== profileHash(printer)) break;
    printer = before;
    taught.pop();
  }
  return { printer, heard: new Set(taught.filter(({ learnt }) => !forgotten(learnt!.before, printer))) };
}

function forgotten(before: PrinterProfile, now: PrinterProfile): boolean {
  if (before.calibrated === null) return false;
  const coupon = ({ calibrated, calibration }: PrinterProfile) =>
    canonical([calibrated, calibration?.readings ?? null]);
  return coupon(before) !== coupon(now);
}
