import acos from '@stdlib/math-base-special-acos';
import asin from '@stdlib/math-base-special-asin';
import cos from '@stdlib/math-base-special-cos';
import exp from '@stdlib/math-base-special-exp';
import expm1 from '@stdlib/math-base-special-expm1';
import ln from '@stdlib/math-base-special-ln';
import log1p from '@stdlib/math-base-special-log1p';
import pow from '@stdlib/math-base-special-pow';
import sin from '@stdlib/math-base-special-sin';

// Functions of `Math` whose last digit the standard leaves to each engine (ECMA-262, section 21.3.2: "implementation-approximated"),
// by their names there, computed from sums, products, quotients and square roots alone, which IEEE 754 rounds alike everywhere.
export { acos, asin, cos, exp, expm1, log1p, pow, sin };

export const log = ln;

/** Of a whole turn. */
const QUARTER = Math.PI / 2;

export const tan = (x: number): number => sin(x) / cos(x);

/** By the sine of the angle where that is small, by that of what is left to a quarter turn otherwise: near 1 an arc sine
 *  loses half its digits. */
export function atan2(y: number, x: number): number {
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  if (!Number.isFinite(x) || !Number.isFinite(y))
    return atan2(Number.isFinite(y) ? 0 * y : Math.sign(y), Number.isFinite(x) ? 0 * x : Math.sign(x));
  const isBack = x < 0 || Object.is(x, -0);
  if (y === 0) return isBack ? (Object.is(y, -0) ? -Math.PI : Math.PI) : y;
  const [across, along] = [Math.abs(y), Math.abs(x)];
  const long = hypot(across, along);
  const acute = across <= along ? asin(across / long) : QUARTER - asin(along / long);
  const angle = isBack ? Math.PI - acute : acute;
  return y < 0 ? -angle : angle;
}

/** As the standard has it: infinite before not a number; scaled, so that no square runs over. */
export function hypot(...sides: number[]): number {
  let most = 0;
  let isUnknown = false;
  for (const side of sides) {
    const size = Math.abs(side);
    if (size === Number.POSITIVE_INFINITY) return size;
    if (Number.isNaN(size)) isUnknown = true;
    else if (size > most) most = size;
  }
  if (isUnknown) return Number.NaN;
  if (most === 0) return 0;
  let sum = 0;
  for (const side of sides) sum += (side / most) * (side / most);
  return most * Math.sqrt(sum);
}

/** A power, and a step of Newton's for what its logarithm lost. */
export function cbrt(x: number): number {
  if (x === 0 || !Number.isFinite(x)) return x;
  const size = Math.abs(x);
  const near = exp(ln(size) / 3);
  const root = near - (near - size / (near * near)) / 3;
  return x < 0 ? -root : root;
}

/** Above it a power of e is soon more than a double holds, and half of it is not. */
const LARGE = 700;

/** Half of e to a large power. */
function halfExp(x: number): number {
  const root = exp(x / 2);
  return (root / 2) * root;
}

export function cosh(x: number): number {
  const size = Math.abs(x);
  return size > LARGE ? halfExp(size) : exp(size) / 2 + exp(-size) / 2;
}

export function sinh(x: number): number {
  if (x === 0) return x;
  const size = Math.abs(x);
  const more = expm1(size);
  return Math.sign(x) * (size > LARGE ? halfExp(size) : (more + more / (more + 1)) / 2);
}

/** 1 in a double from here on. */
const FLAT = 20;

export function tanh(x: number): number {
  if (x === 0) return x;
  if (Math.abs(x) > FLAT) return Math.sign(x);
  const more = expm1(2 * Math.abs(x));
  return (Math.sign(x) * more) / (more + 2);
}

export const atan = (x: number): number => atan2(x, 1);

export const log10 = (x: number): number => ln(x) / Math.LN10;
