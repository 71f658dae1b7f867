/** Prints of a job at most, as its file has it. */
export const MOST_OFF = 1000;

/** How many a text says, a whole number from 1 to 1000; null for anything else.
 *  @example quantityTyped(' 12 ') // => 12 */
export function quantityTyped(text: string): number | null {
  const digits = text.trim();
  if (!/^\d{1,4}$/.test(digits)) return null;
  const quantity = Number(digits);
  return quantity >= 1 && quantity <= MOST_OFF ? quantity : null;
}
