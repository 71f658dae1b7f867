/** Mean and variance of a normal error once it is known to lie in an interval, with what the interval was worth. */
export interface Moments {
  readonly mean: number;
  readonly variance: number;
}

/** The density is followed until it has fallen from its peak by exp(-this): what lies beyond is less than 1e-15 of it. */
const FALL = 36;
/** Panels of Simpson's rule; the integrand is a smooth piece of a normal curve, good to nine digits by then. */
const PANELS = 600;

/** Moments of a normal error cut off at the ends of an interval, however far out it lies. `lo` below `hi`, either may be
 *  infinite; `sd` above 0. By Simpson's rule about the peak, so that nothing cancels in the flanks.
 *  @example momentsWithin(0, 1, 0, Infinity) // => mean: 0.7979, variance: 0.3634, the half-normal law */
export function momentsWithin(mean: number, sd: number, lo: number, hi: number): Moments {
  const [a, b] = [(lo - mean) / sd, (hi - mean) / sd];
  const peak = Math.min(Math.max(0, a), b);
  // Where x^2 / 2 has risen by FALL above that of the peak, on the side away from the middle.
  const reach = Math.sqrt(peak ** 2 + 2 * FALL);
  const from = Math.max(a, peak > 0 ? peak : -reach);
  const to = Math.min(b, peak < 0 ? peak : reach);
  const step = (to - from) / PANELS;
  let [weight, first, second] = [0, 0, 0];
  for (let k = 0; k <= PANELS; k++) {
    const x = from + k * step;
    // exp(-(x^2 - peak^2) / 2), written so that it does not underflow.
    const density = Math.exp(-((x - peak) * (x + peak)) / 2);
    const part = density * (k === 0 || k === PANELS ? 1 : k % 2 === 1 ? 4 : 2);
    const off = x - peak;
    weight += part;
    first += part * off;
    second += part * off * off;
  }
  const middle = first / weight;
  return {
    mean: mean + sd * (peak + middle),
    variance: sd ** 2 * Math.max(0, second / weight - middle ** 2),
  };
}
