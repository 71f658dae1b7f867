import { type Zippable, zipSync } from 'fflate';

/** One file to be put into an archive. */
export interface PackedFile {
  /** Steps parted by `/`. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The first noon that the clock of an archive knows. It is written in local time, so this is noon everywhere. */
const NOON = new Date(1980, 0, 1, 12);
/** Packed already: packing again only costs. */
const PACKED = /\.(3mf|zip|png)$/i;

/** Files as a ZIP archive, in the order given, all of one time: the same files give the same bytes.
 *  Throws `RangeError` for a name given twice. */
export function zipFile(files: readonly PackedFile[]): Uint8Array<ArrayBuffer> {
  const parts: Zippable = {};
  for (const { name, bytes } of files) {
    if (Object.hasOwn(parts, name))
      throw new RangeError(`zipFile requires each name once (given ${name} twice)`);
    parts[name] = [bytes, { level: PACKED.test(name) ? 0 : 9, mtime: NOON }];
  }
  return zipSync(parts);
}
