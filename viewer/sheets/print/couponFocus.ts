/** Element id of the field of a feature. */
export const couponFieldId = (feature: string): string => `coupon-${feature}`;

/** Puts the cursor into the field of a feature. */
export function focusFeature(feature: string): void {
  document.getElementById(couponFieldId(feature))?.focus();
}
