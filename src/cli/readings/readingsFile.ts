import { parseReadings } from '../../job/readings/parseReadings.ts';
import type { RawReadings, ReadThings } from '../../job/readings/rawReadings.ts';
import { readTextFile } from '../readTextFile.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';

/** The raw readings of a file; CSV unless its name or its first letter says JSON. Throws `RefusedFile`. */
export async function readingsFile(path: string, things?: ReadThings): Promise<RawReadings> {
  const text = await readTextFile(path, { field: '', what: 'a file of readings, CSV or JSON' });
  if (typeof text !== 'string') throw new RefusedFile(path, [text]);
  const kind = /\.json$/i.test(path) || (!/\.[ct]sv$/i.test(path) && /^\s*[{[]/.test(text)) ? 'json' : 'csv';
  return blaming(path, () => parseReadings(text, kind, things));
}
