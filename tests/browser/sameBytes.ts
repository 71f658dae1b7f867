import { expect } from 'vitest';

/** Holds bytes to others; where they part it says so in one line, as a list of a million numbers helps nobody. */
export function sameBytes(given: Uint8Array, wanted: Uint8Array, what: string): void {
  const apart = given.findIndex((byte, k) => byte !== wanted[k]);
  const at = apart >= 0 ? apart : given.length === wanted.length ? -1 : given.length;
  const around = (bytes: Uint8Array) =>
    new TextDecoder('latin1').decode(bytes.slice(Math.max(0, at - 30), at + 50)).replace(/[^ -~]/g, '.');
  const said =
    at < 0 ? '' : `from byte ${at} of ${wanted.length}: "${around(given)}" for "${around(wanted)}"`;
  expect(said, what).toBe('');
}
