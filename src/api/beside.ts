import { Refused } from '../job/problem.ts';
import { stepsOf } from '../job/stepsOf.ts';
import { shown } from '../job/zodProblems.ts';
import type { Beside } from './openedJob.ts';

/** What a job names, among what was given beside it. Throws `Refused`: `file_missing`. */
export function lookedUp(name: string, field: string, beside: Beside): string | Uint8Array {
  const plain = (one: string) => stepsOf(one).join('/');
  const names = Object.keys(beside);
  const key = names.find((one) => plain(one) === plain(name));
  if (key !== undefined) return beside[key]!;
  const allowed = names.length > 0 ? `one of ${names.join(', ')}` : 'a name that is there beside the job';
  throw new Refused([{ code: 'file_missing', field, value: shown(name), allowed, reason: 'was not given' }]);
}

/** Bytes of the model that a job names. Throws `Refused`. */
export function modelIn(name: string, beside: Beside): Uint8Array {
  const found = lookedUp(name, 'donor.file', beside);
  return typeof found === 'string' ? new TextEncoder().encode(found) : found;
}
