/** Whether two things say the same: numbers to the last bit (0 is not -0, NaN is NaN), texts, arrays and typed arrays item by item,
 *  plain objects field by field in the same order. Everything else, such as functions and handles of wasm solids, is the same only as
 *  itself. Neither may change afterwards.
 *  @example sameContent({ a: [1, NaN] }, { a: [1, NaN] }) // => true */
export function sameContent(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const kind: unknown = Object.getPrototypeOf(a);
  if (kind !== Object.getPrototypeOf(b)) return false;
  if (Array.isArray(a)) {
    const other = b as readonly unknown[];
    return a.length === other.length && a.every((item, k) => sameContent(item, other[k]));
  }
  if (ArrayBuffer.isView(a)) return sameBytes(a, b as ArrayBufferView);
  if (kind !== Object.prototype) return false;
  const [keys, others] = [Object.keys(a), Object.keys(b)];
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  return (
    keys.length === others.length &&
    keys.every((key, k) => key === others[k] && sameContent(one[key], other[key]))
  );
}

function sameBytes(a: ArrayBufferView, b: ArrayBufferView): boolean {
  if (a.byteLength !== b.byteLength) return false;
  const words = (view: ArrayBufferView): Uint8Array | Int32Array =>
    (view.byteOffset | view.byteLength) % 4 === 0
      ? new Int32Array(view.buffer, view.byteOffset, view.byteLength / 4)
      : new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
  const [one, other] = [words(a), words(b)];
  if (one.length !== other.length) return false;
  for (let k = 0; k < one.length; k++) if (one[k] !== other[k]) return false;
  return true;
}
