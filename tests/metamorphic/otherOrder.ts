import { expect } from 'vitest';
import { canonical } from '../../src/job/hash.ts';
import { takeAway } from '../../src/job/takeAway.ts';
import type { ManifoldToplevel } from '../../src/solid/kernel.ts';
import { read, reversed } from '../job/demo.ts';
import type { Randomness } from '../simulation/randomness.ts';
import { type Made, madeOf } from './anyJob.ts';
import { expectSame } from './sameResult.ts';

/** Fisher and Yates (1938). */
function shuffled<T>(random: Randomness, list: readonly T[]): T[] {
  const left = [...list];
  return list.map(() => left.splice(Math.floor(random.uniform(0, left.length)), 1)[0]!);
}

/** Readings of one place in another order: the same verdicts, sizes and chance, but for the number of a doubtful reading. */
export function readInAnotherOrder(
  kernel: ManifoldToplevel,
  { job, result }: Made,
  random: Randomness,
): void {
  const readings = Object.entries(job.readings).map(([id, texts]) => [id, shuffled(random, texts)] as const);
  const other = read({ ...job, readings: Object.fromEntries(readings) });
  expectSame(result, madeOf(kernel, other)!, { number: 1e-9, words: false });
}

/** The fields of the file in another order: the same to the last byte. */
export function writtenInAnotherOrder(kernel: ManifoldToplevel, { job, prepared, result }: Made): void {
  const other = read(reversed(job));
  const again = madeOf(kernel, other)!;
  expect(canonical({ ...again, parts: [] })).toBe(canonical({ ...result, parts: [] }));
  const models = (made: typeof result, of: typeof prepared) =>
    takeAway({ kernel, prepared: of, result: made }, 'part', { kinds: ['stl'] });
  const [one, two] = [models(result, prepared), models(again, other)];
  expect(two.map(({ name }) => name)).toEqual(one.map(({ name }) => name));
  for (const [k, { bytes }] of one.entries()) expect(Buffer.compare(bytes, two[k]!.bytes)).toBe(0);
}
