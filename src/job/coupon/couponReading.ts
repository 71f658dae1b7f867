import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { Reading } from '../valueTyped.ts';

/** A feature of the coupon as something to be read, with what has been typed for it so far. */
export const couponReading = (
  { id, number, nominal, reading, times, tip }: CouponFeature,
  texts: readonly string[],
): Reading => ({
  id,
  spec: {
    ...reading,
    name: `(${number}) ${reading.name}`,
    round: reading.round === true,
    typical: nominal,
    times,
    tip,
  },
  texts,
});
