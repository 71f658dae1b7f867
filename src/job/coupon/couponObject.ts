import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { PrintEstimate } from '../../printer/coupon/printEstimate.ts';
import { type CouponObject, couponSchema } from '../formats/couponFormat.ts';

export type { CouponObject };

/** The coupon in the form that is printed. Throws `ZodError` where it would break the contract, so that nobody reads it. */
export function couponObject({
  features,
  ...rest
}: {
  readonly printer: string;
  readonly files: CouponObject['files'];
  readonly features: readonly CouponFeature[];
  readonly print: PrintEstimate;
}): CouponObject {
  return couponSchema.parse({
    ...rest,
    features: features.map(({ id, number, kind, axis, nominal, at, callout, reading, times, tip }) => ({
      ...{ id, number, kind, axis, nominal, at, callout },
      ...{ name: reading.name, jaw: reading.jaw, round: reading.round ?? false },
      ...{ from: reading.from, to: reading.to, times, tip },
    })),
  });
}
