import { knownOf, withKnown } from './parameters.ts';
import { type Known, PARAMETERS, type Parameter, type PrinterProfile } from './types.ts';

/** Standard uncertainties the coupon typically leaves, measured with digital callipers by a hand that scatters by 0.02 mm, on a
 *  printer that scatters by 0.024: medians of simulated coupons (tests/printer/calibratedLike.test.ts). Used only to say
 *  what printing it would be worth. */
const afterCoupon: Readonly<Record<Parameter, number>> = {
  'scale.x': 0.00033,
  'scale.y': 0.00033,
  'scale.z': 0.00056,
  outerGrowth: 0.009,
  boreShrink: 0.017,
  boreCurvature: 0.05,
  firstLayerSpread: 0.014,
  firstLayerError: 0.021,
  levelSag: 0.034,
  skew: 0.0006,
};

/** The same printer as well known as a typical coupon would make it: same values, smaller uncertainties, none made
 *  worse. For advice only: `calibrated` stays as it is, for nothing has been measured.
 *  @example calibratedLike(defaultPrinter).outerGrowth // => { value: 0.05, u: 0.009 } */
export function calibratedLike(profile: PrinterProfile): PrinterProfile {
  const known = PARAMETERS.map((parameter): [Parameter, Known] => {
    const { value, u } = knownOf(profile, parameter);
    return [parameter, { value, u: Math.min(u, afterCoupon[parameter]) }];
  });
  return withKnown(profile, Object.fromEntries(known));
}
