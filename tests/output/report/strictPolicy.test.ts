import { describe, expect, it } from 'vitest';
import { base64 } from '../../../src/output/report/base64.ts';
import { strictPolicy } from '../../../src/output/report/strictPolicy.ts';

describe('base64', () => {
  // RFC 4648, 10.
  it.each([
    ['', ''],
    ['f', 'Zg=='],
    ['fo', 'Zm8='],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg=='],
    ['fooba', 'Zm9vYmE='],
    ['foobar', 'Zm9vYmFy'],
  ])('writes %j as %j', (plain, coded) => expect(base64(new TextEncoder().encode(plain))).toBe(coded));

  it('writes what is longer than one go', () => {
    const bytes = Uint8Array.from({ length: 0x2000 * 2 + 5 }, (_, k) => (k * 7) % 256);
    expect([...Buffer.from(base64(bytes), 'base64')]).toEqual([...bytes]);
  });
});

it('names a text by its hash as browsers do', () => {
  // The worked example of Content Security Policy, hash sources; from memory.
  expect(strictPolicy("alert('Hello, world.');")).toContain(
    "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='",
  );
});
