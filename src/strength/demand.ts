/** Refuses a value in the grammar of the house: who requires what, in which range, what was given.
 *
 *  Throws `RangeError` unless `allowed` and `value` is a number other than NaN.
 *  @example demand('plate', 'thickness', 0, false, 'above 0 mm') // RangeError: plate requires thickness above 0 mm (given 0) */
export function demand(who: string, name: string, value: number, allowed: boolean, range: string): void {
  if (!allowed || Number.isNaN(value)) {
    throw new RangeError(`${who} requires ${name} ${range} (given ${value})`);
  }
}

/** Refuses every one of `values` that is not a finite number above 0.
 *  @example demandAbove0('plate', { span: 40, thickness: -1 }) // RangeError: plate requires thickness above 0 (given -1) */
export function demandAbove0(who: string, values: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(values)) {
    demand(who, name, value, value > 0 && value < Infinity, 'above 0');
  }
}

/** A reckoned limit for a sentence: six digits, so that 1.2 times 1.5 reads 1.8.
 *  @example plain(1.7999999999999998) // => 1.8 */
export const plain = (limit: number): number => Number(limit.toPrecision(6));
