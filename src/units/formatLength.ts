/** More decimals than callipers can justify. */
const MOST_DECIMALS = 3;

/** Decimals where nothing is said about uncertainty: the step of digital callipers. */
const DEFAULT_DECIMALS = 2;

/** A number with as many decimals as its standard uncertainty justifies: two significant digits of `u`
 *  (JCGM 100:2008, 7.2.6), at most three decimals. Without `u`, or with one that is 0 or not finite, two
 *  decimals. `value` and `u` in the same unit.
 *  @example formatNumber(4.01953, 0.0138) // => '4.020'
 *  @example formatNumber(4.01953, 0.24) // => '4.02' */
export function formatNumber(value: number, u?: number): string {
  const text = value.toFixed(u === undefined ? DEFAULT_DECIMALS : decimals(u));
  // A rounded -0.001 is no negative number any more.
  return /^-[0.]+$/.test(text) ? text.slice(1) : text;
}

/** A length in mm with its unit, for a line of text; digits as in `formatNumber`.
 *  @example formatLength(4.01953, 0.0138) // => '4.020 mm' */
export function formatLength(mm: number, u?: number): string {
  return `${formatNumber(mm, u)} mm`;
}

function decimals(u: number): number {
  if (!(u > 0) || !Number.isFinite(u)) return DEFAULT_DECIMALS;
  // Rounded first: 0.0996 is 0.10 in two digits, and that takes two decimals.
  const exponent = Number(u.toExponential(1).split('e')[1]);
  return Math.min(MOST_DECIMALS, Math.max(0, 1 - exponent));
}
