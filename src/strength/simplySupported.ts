import { power } from '../arithmetic/power.ts';
import type { PlateLoad } from './plate.ts';

/** Bending in the middle of a plate of unit rigidity: deflection, and curvature along the long and across the short side (sagging above
 *  0), so that M_short = bendShort + nu bendLong. */
export interface MiddleBending {
  readonly deflection: number;
  readonly bendLong: number;
  readonly bendShort: number;
}

/** Sum of 1 / m^3 over odd m, 7/8 zeta(3): the series of an endless strip, from which the others differ by few terms. */
const STRIP = 1.051799790264645;

/** A rectangle `a` long, `b` short (mm), simply supported all round, D = 1.
 *
 *  Uniform pressure: Levy's single series (Timoshenko and Woinowsky-Krieger, section 30). Pad in the middle: the point load's series
 *  (section 34) and what spreading it over a circle changes. That part is exact: the point load's deflection is P r^2 ln(r) / (8 pi) and a
 *  biharmonic rest, whose mean over a disc is u(0) + c^2/8 of its Laplacian; the sum of the bending moments is P / (2 pi) ln(rho / r) and a
 *  harmonic rest, whose mean is its value in the middle. rho is the conformal radius of the rectangle. `stressRadius` takes the place of the pad's for the curvatures. */
export function simplySupported(a: number, b: number, load: PlateLoad, stressRadius: number): MiddleBending {
  let [deflection, sum, difference] = [0, 0, 0];
  if (load.kind === 'uniform') {
    const q = load.pressure;
    for (let m = 1; m < 200; m += 2) {
      const sign = m % 4 === 1 ? 1 : -1;
      const u = (m * Math.PI * a) / (2 * b);
      const [t, s] = [Math.tanh(u), 1 / Math.cosh(u)];
      const k = (m * Math.PI) / b;
      const strip = (sign * 4 * q) / (Math.PI * m * power(k, 4));
      deflection += strip * (1 - ((u * t + 2) * s) / 2);
      // Across the short side -w'' is k^2 w; along the long one only the hyperbolic part bends.
      sum += strip * k * k * (1 - s);
      difference += strip * k * k * (1 - (u * t + 1) * s);
    }
    return { deflection, bendShort: (sum + difference) / 2, bendLong: (sum - difference) / 2 };
  }
  const P = load.force;
  const c = load.spread / 2;
  let [point, gap, twist, ripple] = [STRIP, 0, 0, 0];
  for (let m = 1; m < 60; m += 2) {
    const u = (m * Math.PI * a) / (2 * b);
    const [t, s] = [Math.tanh(u), 1 / Math.cosh(u)];
    point += (t - u * s * s - 1) / power(m, 3);
    gap += (2 / m) * (1 - t);
    twist += (2 * u * s * s) / m;
    ripple += m * (1 - t);
  }
  const rho = ((2 * b) / Math.PI) * Math.exp(-gap);
  deflection =
    (P * b * b * point) / (2 * power(Math.PI, 3)) +
    ((P * c * c) / (16 * Math.PI)) * (Math.log(c / rho) - 1.25);
  const r = stressRadius;
  sum = (P / (2 * Math.PI)) * (Math.log(rho / r) + 0.5);
  // Curvature difference of the point load off its cos(2 phi) part, and c^2/8 of its Laplacian, minus twice the long curvature of the harmonic rest.
  const rest =
    (P / (2 * Math.PI)) * ((2 / 3) * (Math.PI / (2 * b)) ** 2 - ((2 * Math.PI ** 2) / b ** 2) * ripple);
  difference = (P / (4 * Math.PI)) * (1 - 2 * twist) - (r * r * rest) / 4;
  return { deflection, bendShort: (sum + difference) / 2, bendLong: (sum - difference) / 2 };
}
