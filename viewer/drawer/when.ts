import { day } from '../../src/output/words/index.ts';

/** When something was saved, as one says it at the bench: the time for today, the day before.
 *  @example when(Date.UTC(2026, 10, 20, 14, 2), Date.UTC(2026, 10, 21), 0) // => '20 Nov 2026' */
export function when(saved: number, now: number, west = new Date(saved).getTimezoneOffset()): string {
  const here = (time: number) => new Date(time - west * 60_000).toISOString();
  const [then, today] = [here(saved), here(now)];
  return then.slice(0, 10) === today.slice(0, 10) ? `today ${then.slice(11, 16)}` : day(then.slice(0, 10));
}
