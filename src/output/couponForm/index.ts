export { couponForm } from './couponForm.ts';
export type { CouponFormInput } from './couponFormInput.ts';
