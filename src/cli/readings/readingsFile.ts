import { parseReadings } from '../../job/readings/parseReadings.ts';
import type { RawReadings, ReadThings } from '../../job/readings/rawReadings.ts';
import { readingsKind } from '../../job/readings/readingsKind.ts';
import { readTextFile } from '../readTextFile.ts';
import { blaming, RefusedFile } from '../refusedFile.ts';

/** The raw readings of a file; CSV unless its name or its first letter says JSON. Throws `RefusedFile`. */
export async function readingsFile(path: string, things?: ReadThings): Promise<RawReadings> {
  const text = await readTextFile(path, { field: '', what: 'a file of readings, CSV or JSON' });
  if (typeof text !== 'string') throw new RefusedFile(path, [text]);
  return blaming(path, () => parseReadings(text, readingsKind(path, text), things));
}
