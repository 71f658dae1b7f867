import type { Known, PrinterProfile } from './types.ts';

/** Standard uncertainties a coupon measured with ordinary callipers typically leaves. An assumption of this project,
 *  used only to say what printing the coupon would be worth. */
const afterCoupon = {
  scale: 0.0005,
  outerGrowth: 0.01,
  boreShrink: 0.012,
  boreCurvature: 0.02,
  firstLayerSpread: 0.03,
} as const;

/** The same printer as well known as a typical coupon would make it: same values, smaller uncertainties, none made
 *  worse. For advice only: `calibrated` stays as it is, for nothing has been measured.
 *  @example calibratedLike(defaultPrinter).outerGrowth // => { value: 0.05, u: 0.01 } */
export function calibratedLike(profile: PrinterProfile): PrinterProfile {
  const atMost = ({ value, u }: Known, limit: number): Known => ({ value, u: Math.min(u, limit) });
  return {
    ...profile,
    scale: {
      x: atMost(profile.scale.x, afterCoupon.scale),
      y: atMost(profile.scale.y, afterCoupon.scale),
      z: atMost(profile.scale.z, afterCoupon.scale),
    },
    outerGrowth: atMost(profile.outerGrowth, afterCoupon.outerGrowth),
    boreShrink: atMost(profile.boreShrink, afterCoupon.boreShrink),
    boreCurvature: atMost(profile.boreCurvature, afterCoupon.boreCurvature),
    firstLayerSpread: atMost(profile.firstLayerSpread, afterCoupon.firstLayerSpread),
  };
}
