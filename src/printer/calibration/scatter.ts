import { defaultPrinter } from '../defaultPrinter.ts';

/** What a residual tells about the scatter of prints. */
export interface Residual {
  /** Squared residual, mm^2. */
  readonly square: number;
  /** Variance of the observation without the scatter, mm^2. */
  readonly variance: number;
  /** What of one degree of freedom the fit has left it, 0 to 1: 1 - h of the hat matrix. */
  readonly freedom: number;
}

/** Prior repeatability of a printer and how many degrees of freedom it is worth: about as if seven sizes had been
 *  printed before. It keeps a lucky coupon from claiming certainty. Common practice, no source. */
export const PRIOR_SCATTER = { variance: defaultPrinter.repeatability ** 2, dof: 6 } as const;

/** Standard deviation s of prints about the fitted model, mm, with its degrees of freedom, from residuals whose readings
 *  have doubts of their own. s makes the weighted squares equal to what they are expected to be,
 *  sum r^2 / (s^2 + u^2) + nu0 s0^2 / s^2 = sum (1 - h) + nu0, with a prior s0 worth nu0 degrees of freedom.
 *  R. C. Paule and J. Mandel, Consensus values and weighting factors, J. Res. Natl. Bur. Stand. 87 (1982) 377, for the
 *  balance without prior; R. T. Birge (1932) for the ratio that must come to 1 (both from memory). The degrees of
 *  freedom are those of a chi-square with the same relative variance, from the slope of the balance.
 *  @example scatterOf([]) // => { value: 0.0275, dof: 6 } */
export function scatterOf(residuals: readonly Residual[]): { readonly value: number; readonly dof: number } {
  const expected = PRIOR_SCATTER.dof + residuals.reduce((sum, { freedom }) => sum + freedom, 0);
  const square = PRIOR_SCATTER.dof * PRIOR_SCATTER.variance;
  // The balance falls with s2 and bends upwards. It begins here at 0 or above, as the prior's term alone is as much as
  // expected, so Newton's steps only ever go up and none goes past.
  let s2 = square / expected;
  for (let step = Infinity; step > 1e-14 * s2; ) {
    let balance = square / s2 - expected;
    let fall = square / s2 ** 2;
    for (const residual of residuals) {
      const whole = s2 + residual.variance;
      balance += residual.square / whole;
      fall += residual.square / whole ** 2;
    }
    step = balance / fall;
    s2 += Math.max(0, step);
  }
  const slope =
    PRIOR_SCATTER.dof +
    residuals.reduce((sum, { variance, freedom }) => sum + (freedom * s2) / (s2 + variance), 0);
  return { value: Math.sqrt(s2), dof: slope ** 2 / expected };
}
