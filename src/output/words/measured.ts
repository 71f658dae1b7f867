/** Three significant digits, never an exponent for anything a bench knows.
 *  @example significant(0.23412) // => '0.234' */
export const significant = (number: number): string => String(Number(number.toPrecision(3)));

/** A number with its unit; a plain ratio, unit `1`, has none. */
export const withUnit = (number: number, unit: string): string =>
  `${significant(number)}${unit === '1' ? '' : ` ${unit}`}`;

/** What was found and what is allowed, in the unit. */
export interface Measured {
  /** Null for a finding that is no number. */
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** Distance to the limit, positive on the good side. */
  readonly margin: number | null;
}

/** On which side of its limit a value has to stay; null without a limit. */
export function sideOf({ value, limit, margin }: Measured): 'at most' | 'at least' | null {
  if (value === null || limit === null || margin === null) return null;
  return margin >= 0 === limit >= value ? 'at most' : 'at least';
}

/** A value with its limit; empty for what is no number.
 *  @example measured({ value: 1.9, limit: 2.1, unit: '%', margin: 0.2 }) // => '1.9 % (at most 2.1 %)' */
export function measured(of: Measured): string {
  if (of.value === null) return '';
  const shown = withUnit(of.value, of.unit);
  const side = sideOf(of);
  return side === null ? shown : `${shown} (${side} ${withUnit(of.limit!, of.unit)})`;
}
