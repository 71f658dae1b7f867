import { DonorRefusal } from '../donorRefusal.ts';
import type { DonorRemark } from '../types.ts';
import { declaredCount, recordPlausible, stlPrefix, stlRecord } from './fileKind.ts';
import { holdTriangles } from './limits.ts';
import type { Progress, TriangleSoup } from './triangleSoup.ts';
import { unitInHeader } from './unitInHeader.ts';

const STRIDE = 2 ** 16;

/** Triangles of a binary STL: 80 bytes of header, count, 50 bytes a triangle, little-endian (StereoLithography Interface
 *  Specification, 3D Systems, 1989, from memory). Room is made for what the file holds, never for what it counts:
 *  more bytes than the count says are read as triangles as long as they look like such.
 *  Throws `donor_empty`, `donor_too_large`. */
export function binaryStl(bytes: Uint8Array, onProgress?: Progress): TriangleSoup {
  const declared = declaredCount(bytes);
  const held = Math.floor((bytes.length - stlPrefix) / stlRecord);
  const spare = bytes.length - stlPrefix - stlRecord * declared;
  let count = Math.min(declared, held);
  while (count < held && recordPlausible(bytes, stlPrefix + stlRecord * count)) count++;
  if (count === 0)
    throw new DonorRefusal('donor_empty', 'an STL without a triangle', 'a model with a surface');
  holdTriangles(count);

  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const corners = new Float64Array(9 * count);
  for (let t = 0; t < count; t++) {
    // After the normal, which nothing is taken from: it is wrong more often than the order of the corners.
    let at = stlPrefix + stlRecord * t + 12;
    for (let k = 9 * t; k < 9 * t + 9; k++, at += 4) corners[k] = view.getFloat32(at, true);
    if (t % STRIDE === 0) onProgress?.(t / count);
  }

  const remarks: DonorRemark[] = [];
  if (count !== declared)
    remarks.push({
      kind: 'count-wrong',
      sentence: `the file counts ${declared} triangles and holds ${count}`,
    });
  else if (spare > 0)
    remarks.push({ kind: 'bytes-left', sentence: `${spare} bytes after the last triangle were left alone` });
  return {
    corners,
    cutShort: count < declared ? `the file counts ${declared} triangles and holds ${count}` : null,
    declaredUnit: unitInHeader(new TextDecoder('latin1').decode(bytes.subarray(0, 80))),
    remarks,
  };
}
