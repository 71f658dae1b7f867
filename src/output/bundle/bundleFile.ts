import { type PackedFile, zipFile } from '../../archive/zipFile.ts';
import { type BundledKind, MANIFEST, type Manifest, manifestSchema } from './manifest.ts';

/** One file in a bundle. */
export interface BundledFile {
  /** Steps parted by `/`. */
  readonly path: string;
  readonly kind: BundledKind;
  readonly bytes: Uint8Array;
}

/** A bundle: one ZIP archive of the files, led by the list of them with their hashes. The same content gives the same
 *  bytes. `sha256` gives the hash of bytes in hex. Throws `ZodError` for a list that no reader would take. */
export function bundleFile(
  about: Omit<Manifest, 'fettleBundle' | 'files'>,
  files: readonly BundledFile[],
  sha256: (bytes: Uint8Array) => string,
): Uint8Array<ArrayBuffer> {
  const list = manifestSchema.parse({
    fettleBundle: 1,
    ...about,
    files: files.map(({ path, kind, bytes }) => ({ path, kind, bytes: bytes.length, sha256: sha256(bytes) })),
  });
  const manifest: PackedFile = {
    name: MANIFEST,
    bytes: new TextEncoder().encode(`${JSON.stringify(list, null, 2)}\n`),
  };
  return zipFile([manifest, ...files.map(({ path, bytes }) => ({ name: path, bytes }))]);
}
