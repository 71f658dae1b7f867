/** Numbers and texts looked at; what lies beyond tells things of one hash apart no more, so it may cost a comparison. */
const LOOKED_AT = 600;

const bits = new Float64Array(1);
const halves = new Int32Array(bits.buffer);

/** A number of 32 bits that is the same for things that `sameContent` calls the same, and mostly another for others. Of large things
 *  only a part is looked at. */
export function contentHash(value: unknown): number {
  let left = LOOKED_AT;
  let hash = 0x811c9dc5;
  const mix = (word: number): void => {
    hash = Math.imul(hash ^ word, 0x01000193);
    hash ^= hash >>> 15;
  };
  const number = (x: number): void => {
    bits[0] = x;
    mix(halves[0]!);
    mix(halves[1]!);
  };
  const look = (inner: unknown): void => {
    if (--left < 0) return;
    switch (typeof inner) {
      case 'number':
        number(inner);
        return;
      case 'string':
        mix(inner.length);
        for (let k = 0; k < inner.length && k < 64; k++) mix(inner.charCodeAt(k));
        return;
      case 'object':
        if (inner !== null) inside(inner);
        return;
      default:
        mix(inner === true ? 1 : 2);
    }
  };
  const inside = (inner: object): void => {
    if (ArrayBuffer.isView(inner)) {
      const list = inner as Float64Array;
      mix(list.length);
      const step = Math.max(1, Math.floor(list.length / 256));
      for (let k = 0; k < list.length; k += step) number(list[k]!);
    } else if (Array.isArray(inner)) {
      mix(inner.length);
      for (const one of inner) look(one);
    } else if (Object.getPrototypeOf(inner) === Object.prototype) {
      for (const key of Object.keys(inner)) look((inner as Record<string, unknown>)[key]);
    }
  };
  look(value);
  return hash;
}
