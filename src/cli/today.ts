import { z } from 'zod';
import { RefusedFile } from './refusedFile.ts';

/** The day by the person's own clock, YYYY-MM-DD. */
export function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The day given with `--date`, or today. Throws `RefusedFile` unless it is a date. */
export function dayTold(told: string | undefined): string {
  if (told === undefined) return today();
  if (z.iso.date().safeParse(told).success) return told;
  throw new RefusedFile('--date', [
    { code: 'date_unclear', field: '', value: JSON.stringify(told), allowed: 'a date, YYYY-MM-DD' },
  ]);
}
