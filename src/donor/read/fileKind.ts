import { beginsAsZip } from '../../archive/zipArchive.ts';
import { DonorRefusal } from '../donorRefusal.ts';
import { limits } from './limits.ts';

export type FileKind = 'stl-binary' | 'stl-ascii' | 'zip';

/** Header and count of a binary STL, and one of its triangles, bytes. */
export const stlPrefix = 84;
export const stlRecord = 50;

/** How far into a file one has to look: no binary STL goes as long without a byte that no text has. */
const SAMPLE = 4096;
const READABLE = 'an STL, binary or text, or a 3MF';

/** What a file is, by what is in it: headers of binary files begin with `solid` too, and names of files mislead.
 *  A count that matches the size decides for binary; then text for text; then records that can be triangles.
 *  Throws `donor_empty` and `donor_format_unknown`. */
export function fileKind(bytes: Uint8Array): FileKind {
  if (bytes.length === 0) throw new DonorRefusal('donor_empty', 'an empty file', READABLE);
  if (beginsAsZip(bytes)) return 'zip';
  const binarySize = bytes.length >= stlPrefix && stlPrefix + stlRecord * declaredCount(bytes);
  if (binarySize === bytes.length) return 'stl-binary';
  const start = firstWords(bytes);
  if (isText(bytes)) {
    if (/^(solid|facet)(\s|$)/i.test(start)) return 'stl-ascii';
    throw new DonorRefusal('donor_format_unknown', otherFormat(start), READABLE);
  }
  if (recordsPlausible(bytes)) return 'stl-binary';
  throw new DonorRefusal(
    'donor_format_unknown',
    'neither the text of an STL nor triangles in bytes',
    READABLE,
  );
}

/** Number of triangles a binary STL says it has; 0 when it is too short to say. */
export const declaredCount = (bytes: Uint8Array): number =>
  bytes.length < stlPrefix ? 0 : new DataView(bytes.buffer, bytes.byteOffset).getUint32(80, true);

/** The beginning of a file as text, without byte order mark, blanks and comment lines. */
const firstWords = (bytes: Uint8Array): string =>
  new TextDecoder('latin1')
    .decode(bytes.subarray(0, SAMPLE))
    .replace(/^(\xef\xbb\xbf)?([\s\0]|(#|;|\/\/)[^\r\n]*)*/, '');

function isText(bytes: Uint8Array): boolean {
  let end = Math.min(bytes.length, SAMPLE);
  // Some writers fill up the last block of the file.
  if (end === bytes.length) while (end > 0 && bytes[end - 1] === 0) end--;
  for (let k = 0; k < end; k++) {
    const byte = bytes[k]!;
    if (byte < 0x20 && (byte < 9 || byte > 13)) return false;
  }
  return true;
}

function otherFormat(start: string): string {
  if (start.startsWith('ISO-10303-21')) return 'a STEP file, which holds surfaces and no triangles';
  if (/^ply\s/.test(start)) return 'a PLY file';
  if (/^(N?C?OFF)\s/.test(start)) return 'an OFF file';
  if (/^(v|o|g|mtllib)\s/.test(start)) return 'an OBJ file';
  if (/^<(\?xml|model)/.test(start)) return 'XML outside of its archive';
  return 'text that is no STL';
}

/** Whether the first records after a header hold coordinates that some part could have. */
function recordsPlausible(bytes: Uint8Array): boolean {
  const records = Math.min(8, Math.floor((bytes.length - stlPrefix) / stlRecord));
  let good = 0;
  for (let r = 0; r < records; r++) if (recordPlausible(bytes, stlPrefix + stlRecord * r)) good++;
  // One record may be damaged.
  return records > 0 && good >= records - 1 && good > 0;
}

/** Whether fifty bytes can be a triangle: coordinates that some part could have, a normal no longer than unit. */
export function recordPlausible(bytes: Uint8Array, at: number): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  for (let k = 0; k < 12; k++) {
    const size = Math.abs(view.getFloat32(at + 4 * k, true));
    if (k < 3 ? size > 1.001 : size !== 0 && !(size > 1e-20 && size < limits.coordinate)) return false;
  }
  return true;
}
