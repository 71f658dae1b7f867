import fc from 'fast-check';

/** One change of a file, places as shares of its length so that it suits any file. */
interface Edit {
  readonly what: 'change' | 'flip' | 'cut' | 'end' | 'double' | 'insert' | 'fill';
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly bytes: readonly number[];
}

const share = fc.double({ min: 0, max: 1, noNaN: true });
const byte = fc.oneof(
  fc.constantFrom(0, 0x0a, 0x20, 0x22, 0x2c, 0x2f, 0x30, 0x39, 0x3c, 0x7f, 0x80, 0xff),
  fc.integer({ min: 0, max: 255 }),
);

/** One to four changes of bytes: some overwritten, a bit turned, cut out, the end lost, doubled, put in, filled. */
export const edits: fc.Arbitrary<readonly Edit[]> = fc.array(
  fc.record({
    what: fc.constantFrom<Edit['what']>(
      'change',
      'change',
      'flip',
      'flip',
      'cut',
      'end',
      'double',
      'insert',
      'fill',
    ),
    from: share,
    to: share,
    count: fc.constantFrom(1, 2, 4, 12, 50, 200),
    bytes: fc.array(byte, { minLength: 1, maxLength: 60 }),
  }),
  { minLength: 1, maxLength: 4 },
);

/** A copy of a file with the changes made one after the other. */
export const edited = (file: Uint8Array, list: readonly Edit[]): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(list.reduce<number[]>(once, [...file]));

function once(file: number[], { what, from, to, count, bytes }: Edit): number[] {
  const at = Math.min(file.length, Math.floor(from * (file.length + 1)));
  const end = Math.min(file.length, at + count);
  const whole = [...file];
  switch (what) {
    case 'change':
      if (at < whole.length) whole[at] = bytes[0]!;
      return whole;
    case 'flip':
      if (at < whole.length) whole[at]! ^= 1 << (bytes[0]! % 8);
      return whole;
    case 'cut':
      whole.splice(at, end - at);
      return whole;
    case 'end':
      return whole.slice(0, Math.max(1, at));
    case 'double':
      whole.splice(Math.floor(to * whole.length), 0, ...whole.slice(at, end));
      return whole;
    case 'insert':
      whole.splice(at, 0, ...bytes);
      return whole;
    case 'fill':
      return whole.fill(bytes[0]!, at, end);
  }
}
