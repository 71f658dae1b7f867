import { z } from 'zod';
import { Refused } from '../job/problem.ts';
import { shown } from '../job/zodProblems.ts';

/** Today by the clock of this machine, YYYY-MM-DD. */
function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** The day told, or today. Throws `Refused`: `date_unclear`. */
export function dayOf(told: string | undefined): string {
  if (told === undefined) return today();
  if (z.iso.date().safeParse(told).success) return told;
  throw new Refused([
    { code: 'date_unclear', field: 'date', value: shown(told), allowed: 'a date, YYYY-MM-DD' },
  ]);
}
