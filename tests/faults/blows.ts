import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Blow, Learnt } from './killing.ts';

/** Half of the kills cannot be heard by the process, the others can. */
const SIGNALS = ['SIGKILL', 'SIGTERM', 'SIGKILL', 'SIGINT'] as const;

/** Moments at which to end runs of a scene, by seed: a third of them anywhere in as long as the undisturbed run took, a third from
 *  outside while it writes, a third by its own hand at one of its steps on the disk. */
export function blowsFor({ steps, ms }: Learnt, count: number, seed: number): readonly Blow[] {
  const random = xoroshiro128plus(seed);
  const step = () => uniformInt(random, 1, steps.length);
  return Array.from({ length: count }, (_, k): Blow => {
    const signal = SIGNALS[Math.floor(k / 3) % SIGNALS.length]!;
    if (k % 3 === 0) return { signal, ms: ms * uniformFloat64(random) };
    if (k % 3 === 1) return { signal, ms: 3 * uniformFloat64(random), steps: step() };
    return { signal, step: step() };
  });
}
