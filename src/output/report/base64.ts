/** Bytes fed to one call: the arguments of a function are limited in number. */
const AT_ONCE = 0x2000;

/** Bytes in base64 (RFC 4648, 4), in Node and in a browser worker alike.
 *  @example base64(new Uint8Array([102, 111, 111])) // => 'Zm9v' */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let k = 0; k < bytes.length; k += AT_ONCE)
    text += String.fromCharCode(...bytes.subarray(k, k + AT_ONCE));
  return btoa(text);
}
