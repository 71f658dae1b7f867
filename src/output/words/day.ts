const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** An ISO date as a person writes it; anything else stays as it is.
 *  @example day('2025-11-20') // => '20 Nov 2025' */
export function day(iso: string): string {
  const [, year, month, date] = /^(\d{4})-(\d{2})-(\d{2})/.exec(iso) ?? [];
  const name = MONTHS[Number(month) - 1];
  return name === undefined ? iso : `${Number(date)} ${name} ${year}`;
}
