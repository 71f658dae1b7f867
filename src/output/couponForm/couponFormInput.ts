import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import type { Mesh } from '../../solid/mesh.ts';

/** What the form of a coupon is made from. */
export interface CouponFormInput {
  readonly printer: PrinterProfile;
  readonly features: readonly CouponFeature[];
  /** The coupon as it lies on the bed. */
  readonly mesh: Mesh;
  /** g and minutes, roughly. */
  readonly print: { readonly mass: number; readonly minutes: number };
  /** The command that takes the readings. */
  readonly next: string;
}
