import fc from 'fast-check';

/** Where in a range something lies, 0 to 1: anywhere, often low, at either end. Whole thousandths, for doubles are drawn by
 *  their bits and come out next to 0. */
export const share: fc.Arbitrary<number> = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 1000 }).map((k) => k / 1000) },
  { weight: 4, arbitrary: fc.integer({ min: 0, max: 1000 }).map((k) => (k / 1000) ** 2.5) },
  { weight: 2, arbitrary: fc.constantFrom(0, 1) },
);

/** One of a list by a share. */
export const pick = <T>(list: readonly T[], at: number): T =>
  list[Math.min(list.length - 1, Math.floor(at * list.length))]!;

export const between = (from: number, to: number, at: number): number => from + (to - from) * at;
