/** Rough minutes as a person says them: whole minutes, from an hour on to five of them. `minutes` 0 or above.
 *  @example duration(97.2) // => '1 h 35 min' */
export function duration(minutes: number): string {
  const whole = minutes < 60 ? Math.round(minutes) : 5 * Math.round(minutes / 5);
  if (whole < 1) return 'under a minute';
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  return [hours > 0 ? `${hours} h` : '', rest > 0 ? `${rest} min` : '']
    .filter((part) => part !== '')
    .join(' ');
}
