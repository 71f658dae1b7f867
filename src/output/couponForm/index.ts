export { couponForm } from './couponForm.ts';
export type { CouponFormInput } from './couponFormInput.ts';
export { type CouponField, type CouponPath, type CouponSheet, couponSheet } from './couponSheet.ts';
