import { MILLIMETRES_PER_INCH } from '../units/index.ts';

/** A size the maker may have meant. */
export interface Nominal {
  readonly mm: number;
  /** As a drawing has it: "1.5 mm", "1/16 in". */
  readonly text: string;
}

/** Steps in which makers choose sizes, coarse before fine within a system. Common practice, no source. */
const METRIC_STEPS = [1, 0.5];
const INCH_DENOMINATORS = [16, 32];

/** A grid finer than this many expanded uncertainties is hit by chance too often to mean anything. */
const COARSENESS = 4;

/** Nominal sizes that lie within `U` of `value` (mm): the nearest of those `declared`, the nearest whole
 *  or else half millimetre, the nearest sixteenth or else thirty-second of an inch. Steps too fine for `U`
 *  are left out. Information only: nothing is rounded to them. Common practice, no source.
 *  @example likelyNominals(1.594, 0.05) // => [{ mm: 1.5875, text: '1/16 in' }] */
export function likelyNominals(
  value: number,
  U: number,
  declared: readonly number[] = [],
): readonly Nominal[] {
  const found: Nominal[] = [];
  const add = (mm: number, text: string): boolean => {
    const within = mm > 0 && Math.abs(value - mm) <= U;
    if (within && !found.some((known) => Math.abs(known.mm - mm) < 1e-9)) found.push({ mm, text });
    return within;
  };

  const [nearest] = [...declared].sort((a, b) => Math.abs(a - value) - Math.abs(b - value));
  if (nearest !== undefined) add(nearest, `${nearest} mm`);

  const metric = METRIC_STEPS.filter((step) => step >= COARSENESS * U);
  metric.some((step) => {
    const mm = Math.round(value / step) * step;
    return add(mm, `${mm} mm`);
  });

  const inch = INCH_DENOMINATORS.filter((parts) => MILLIMETRES_PER_INCH / parts >= COARSENESS * U);
  inch.some((parts) => {
    const count = Math.round((value / MILLIMETRES_PER_INCH) * parts);
    return add((count * MILLIMETRES_PER_INCH) / parts, inches(count, parts));
  });
  return found;
}

/** `count / parts` of an inch in lowest terms: 18/16 is "1 1/8 in". `parts` a power of two. */
function inches(count: number, parts: number): string {
  let numerator = count;
  let denominator = parts;
  while (denominator > 1 && numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  const whole = Math.floor(numerator / denominator);
  const rest = numerator % denominator;
  if (rest === 0) return `${whole} in`;
  return whole === 0 ? `${rest}/${denominator} in` : `${whole} ${rest}/${denominator} in`;
}
