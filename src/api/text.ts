import { parseJson } from '../job/parseJson.ts';
import { Refused } from '../job/problem.ts';

/** Text of what was given as text or as the bytes of a file, UTF-8. Throws `Refused`: `not_utf8`. */
function textOf(given: string | Uint8Array, field: string): string {
  if (typeof given === 'string') return given;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(given);
  } catch {
    throw new Refused([{ code: 'not_utf8', field, value: 'not text', allowed: 'UTF-8' }]);
  }
}

/** Value of a JSON text, or of the bytes of its file. Throws `Refused`. */
export function jsonOf(given: string | Uint8Array, field: string): unknown {
  const parsed = parseJson(textOf(given, field).replace(/^\uFEFF/, ''), field);
  if ('json' in parsed) return parsed.json;
  throw new Refused([parsed]);
}
