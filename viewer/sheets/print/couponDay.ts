import type { PrinterProfile } from '../../../src/printer/types.ts';
import type { CouponTexts } from './couponKey.ts';
import { today } from './today.ts';

/** Day on which the coupon was printed. A profile that these very readings made keeps its day, so that nothing changes by
 *  looking. */
export const couponDay = (texts: CouponTexts, profile: PrinterProfile, printed: string): string =>
  printed || (sameReadings(texts, profile) ? profile.calibrated! : today());

const sameReadings = (texts: CouponTexts, { calibrated, calibration }: PrinterProfile): boolean => {
  const sorted = (of: Readonly<Record<string, readonly (string | number)[]>>) =>
    JSON.stringify(
      Object.entries(of)
        .filter(([, all]) => all.length > 0)
        .map(([id, all]) => [id, all.map(String)])
        .sort(),
    );
  return calibrated !== null && calibration !== undefined && sorted(texts) === sorted(calibration.readings);
};
