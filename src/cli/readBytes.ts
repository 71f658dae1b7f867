import { readWhole } from './readWhole.ts';
import { RefusedFile } from './refusedFile.ts';
import { systemProblem } from './systemProblem.ts';

interface Wanted {
  /** Field of the problems: empty for the file itself. */
  readonly field: string;
  /** "a model in STL or 3MF": what is allowed when it is something else. */
  readonly what: string;
  /** Largest size taken, bytes. */
  readonly largest: number;
}

/** Bytes of a plain file, read whole as `readWhole` does. Throws `RefusedFile`, blaming `field` of `blamed`. */
export async function readBytes(
  blamed: string,
  path: string,
  { field, ...wanted }: Wanted,
): Promise<Uint8Array> {
  const read = await readWhole(path, wanted).catch((error: unknown) =>
    systemProblem(error, field, wanted.what),
  );
  if (read instanceof Uint8Array) return read;
  throw new RefusedFile(blamed, [{ ...read, field }]);
}
