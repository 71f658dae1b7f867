/** The day by the clock of whoever sits at the page, YYYY-MM-DD.
 *  @example localDay(Date.UTC(2026, 11, 3, 23, 30), -60) // => '2026-12-04' */
export function localDay(now: number, west = new Date(now).getTimezoneOffset()): string {
  return new Date(now - west * 60_000).toISOString().slice(0, 10);
}
