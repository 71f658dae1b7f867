import { coupon } from '../../printer/coupon/coupon.ts';
import { CouponRefusal } from '../../printer/coupon/couponRefusal.ts';
import type { Coupon } from '../../printer/coupon/feature.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import { Refused } from '../problem.ts';

/** The coupon of a printer. Throws `Refused` where `coupon` refuses. */
export function couponOf(printer: PrinterProfile): Coupon {
  try {
    return coupon(printer);
  } catch (error) {
    if (!(error instanceof CouponRefusal)) throw error;
    const { code, field, given, allowed } = error;
    throw new Refused([{ code, field, value: String(given), allowed }]);
  }
}
