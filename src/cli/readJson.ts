import { dirname } from 'node:path';
import { parseJson } from '../job/parseJson.ts';
import { settled } from './disk/settled.ts';
import { readTextFile } from './readTextFile.ts';
import { RefusedFile } from './refusedFile.ts';

/** Value of a JSON file, once its folder is as it is to be after a process that was killed there; whatever is wrong with it is a problem of `blamed`. */
export async function readJson(blamed: string, path: string, field: string, what: string): Promise<unknown> {
  await settled(dirname(path));
  const text = await readTextFile(path, { field, what });
  if (typeof text !== 'string') throw new RefusedFile(blamed, [text]);
  const parsed = parseJson(text, field);
  if (!('json' in parsed)) throw new RefusedFile(blamed, [parsed]);
  return parsed.json;
}
