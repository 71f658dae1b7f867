import { encode } from 'fast-png';

/** Rows of red, green, blue, alpha bytes as a PNG file (ISO/IEC 15948, 8 bits a channel). The same pixels give the
 *  same bytes. Throws `RangeError` when the number of bytes is not 4 x width x height. */
export function encodePng(rgba: Uint8Array, width: number, height: number): Uint8Array {
  if (rgba.length !== 4 * width * height) {
    throw new RangeError(
      `encodePng requires 4 bytes a pixel (${rgba.length} bytes, size ${width} x ${height} pixels)`,
    );
  }
  return encode({ width, height, data: rgba, channels: 4, depth: 8 }, { zlib: { level: 9 } });
}
