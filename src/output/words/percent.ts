/** Chance in percent; 100 % is never promised and 0 % never passed. `chance` 0 to 1.
 *  @example percent(0.9996) // => '> 99 %' */
export function percent(chance: number): string {
  const whole = Math.round(100 * chance);
  if (whole >= 100) return '> 99 %';
  if (whole <= 0) return '< 1 %';
  return `${whole} %`;
}
