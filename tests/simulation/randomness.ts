import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A seeded source of draws; the same seed gives the same draws. */
export interface Randomness {
  readonly uniform: (lowest: number, highest: number) => number;
  /** About 0, with this standard deviation. */
  readonly normal: (deviation: number) => number;
  readonly oneOf: <T>(list: readonly T[]) => T;
}

export function randomness(seed: number): Randomness {
  const generator = xoroshiro128plus(seed);
  const uniform = (lowest: number, highest: number): number =>
    lowest + (highest - lowest) * uniformFloat64(generator);
  return {
    uniform,
    // Box and Muller (1958).
    normal: (deviation) =>
      deviation * Math.sqrt(-2 * Math.log(1 - uniform(0, 1))) * Math.cos(2 * Math.PI * uniform(0, 1)),
    oneOf: (list) => list[Math.floor(uniform(0, list.length))]!,
  };
}
