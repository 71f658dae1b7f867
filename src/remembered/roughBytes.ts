/** About what a thing takes in memory, bytes: enough to keep many of them within bounds. What is not plain data, such as functions and
 *  handles of wasm solids, counts nothing here, and what was `counted` before does not count again. */
export function roughBytes(value: unknown, counted = new WeakSet<object>()): number {
  if (typeof value === 'string') return 16 + value.length;
  if (typeof value !== 'object' || value === null) return 8;
  if (counted.has(value)) return 8;
  counted.add(value);
  if (ArrayBuffer.isView(value)) return 64 + value.byteLength;
  if (!Array.isArray(value) && Object.getPrototypeOf(value) !== Object.prototype) return 0;
  let sum = 32;
  for (const inner of Object.values(value)) sum += roughBytes(inner, counted);
  return sum;
}
