import type { Range, Thread } from './thread.ts';

/** Something to look at that tells two threads apart. Data: the sentence is made at the edge. Lengths in mm. */
export type TellingTest = { readonly between: readonly [string, string] } & (
  | {
      /** Length over so many threads. */
      readonly by: 'pitch';
      readonly threads: number;
      readonly expected: readonly [number, number];
    }
  | {
      /** Outside diameter of an unworn screw. */
      readonly by: 'diameter';
      readonly expected: readonly [Range, Range];
    }
  | {
      /** Angle between the flanks, degrees, by a thread gauge. */
      readonly by: 'angle';
      readonly expected: readonly [number, number];
    }
  /** A tapping screw has a point or a cut end; the one of the two that is one. */
  | { readonly by: 'tip'; readonly tapping: string }
  /** A nut known to be one or the other. */
  | { readonly by: 'nut' }
);

/** Numbers of threads worth measuring over; the fewest that tells is proposed. */
const THREADS = [5, 10, 20] as const;

/** Difference in length that callipers over crests tell with 19 in 20 either way: four times their standard uncertainty of
 *  some 0.055 mm. */
const LENGTH_TOLD = 0.22;

/** Gap between two permitted diameters that a few readings tell, mm: their repeatability. Common practice, no source. */
const DIAMETER_TOLD = 0.02;

/** What tells two threads apart at a bench, the easiest first; never empty. Diameters are those of the usual class.
 *  @example tellApart(thread('M5'), thread('2BA')).map(({ by }) => by) // => ['diameter', 'angle', 'nut'] */
export function tellApart(a: Thread, b: Thread): readonly TellingTest[] {
  const between = [a.designation, b.designation] as const;
  const tests: TellingTest[] = [];
  const threads = THREADS.find((count) => count * Math.abs(a.pitch - b.pitch) >= LENGTH_TOLD);
  if (threads !== undefined)
    tests.push({ between, by: 'pitch', threads, expected: [threads * a.pitch, threads * b.pitch] });
  const [one, other] = [a.outside.usual, b.outside.usual];
  if (Math.max(one.lo, other.lo) - Math.min(one.hi, other.hi) >= DIAMETER_TOLD)
    tests.push({ between, by: 'diameter', expected: [one, other] });
  if (a.angle !== b.angle) tests.push({ between, by: 'angle', expected: [a.angle, b.angle] });
  const tapping = [a, b].filter(({ system }) => system === 'tapping');
  if (tapping.length === 1) tests.push({ between, by: 'tip', tapping: tapping[0]!.designation });
  if (tapping.length === 0 || tests.length === 0) tests.push({ between, by: 'nut' });
  return tests;
}
