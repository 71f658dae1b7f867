import { readBytes } from '../readBytes.ts';

/** What a donor may be. */
export const A_MODEL = 'a model in STL or 3MF';

/** Largest model taken, bytes: two million triangles in binary STL, more than any printable part needs. */
const LARGEST = 128 * 1024 * 1024;

/** Bytes of a model's file; its kind and size are looked at first. Throws `RefusedFile`, blaming `field` of `blamed`. */
export const modelBytes = (blamed: string, path: string, field: string): Promise<Uint8Array> =>
  readBytes(blamed, path, { field, what: A_MODEL, largest: LARGEST });
