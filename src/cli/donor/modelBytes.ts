import { LARGEST_MODEL } from '../../job/largestModel.ts';
import { readBytes } from '../readBytes.ts';

/** What a donor may be. */
export const A_MODEL = 'a model in STL or 3MF';

/** Bytes of a model's file; its kind and size are looked at first. Throws `RefusedFile`, blaming `field` of `blamed`. */
export const modelBytes = (blamed: string, path: string, field: string): Promise<Uint8Array> =>
  readBytes(blamed, path, { field, what: A_MODEL, largest: LARGEST_MODEL });
