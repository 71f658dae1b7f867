import { Refused } from './problem.ts';

/** Largest job file taken, in characters; a job with a thousand readings is under 50,000. */
export const LARGEST_JOB = 5 * 1024 * 1024;

/** JSON text as a value. A byte-order mark is passed over. Throws `Refused` with line and column when it is no JSON. */
export function parseJson(text: string): unknown {
  if (text.length > LARGEST_JOB) {
    throw new Refused([
      {
        code: 'file_too_large',
        field: '',
        value: `${text.length} characters`,
        allowed: `at most ${LARGEST_JOB}`,
      },
    ]);
  }
  const plain = text.replace(/^\uFEFF/, '');
  try {
    return JSON.parse(plain);
  } catch (error) {
    const position = /position (\d+)/.exec((error as Error).message)?.[1];
    const before = plain.slice(0, position === undefined ? plain.length : Number(position));
    const line = before.split('\n').length;
    const column = before.length - before.lastIndexOf('\n');
    throw new Refused([
      {
        code: 'json_malformed',
        field: '',
        value: plain.trim() === '' ? 'an empty file' : `line ${line}, column ${column}`,
        allowed: 'JSON',
        reason: plain.trim() === '' ? 'holds nothing' : 'is where it stops being JSON',
      },
    ]);
  }
}
