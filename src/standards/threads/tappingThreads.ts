import type { Thread } from './thread.ts';

/** Size, pitch, greatest and least outside diameter, mm. ISO 1478:1999, table 1, from memory. */
const SIZES: readonly (readonly [size: number, pitch: number, greatest: number, least: number])[] = [
  [1.9, 0.6, 1.9, 1.76],
  [2.2, 0.8, 2.24, 2.1],
  [2.6, 0.9, 2.57, 2.43],
  [2.9, 1.1, 2.9, 2.76],
  [3.3, 1.3, 3.3, 3.12],
  [3.5, 1.3, 3.53, 3.35],
  [3.9, 1.3, 3.91, 3.73],
  [4.2, 1.4, 4.22, 4.04],
  [4.8, 1.6, 4.8, 4.62],
  [5.5, 1.8, 5.46, 5.28],
  [6.3, 1.8, 6.25, 6.03],
];

/** Common sizes, and how often all are met. Common practice, no source. */
const COMMON = [2.2, 2.9, 3.5, 3.9, 4.2, 4.8];
const MET = { common: 0.5, rare: 0.1 } as const;

/** Tapping screw threads ST1.9 to ST6.3, ISO 1478: the coarse screws that go straight into sheet or plastic. They are here so
 *  that such a screw is not taken for a machine screw.
 *  @example tappingThreads.find(({ nominal }) => nominal === 2.9)?.pitch // => 1.1 */
export const tappingThreads: readonly Thread[] = SIZES.map(([size, pitch, greatest, least]): Thread => {
  const outside = { lo: least, hi: greatest };
  return {
    designation: `ST${size}`,
    system: 'tapping',
    series: 'only',
    nominal: size,
    pitch,
    angle: 60,
    basic: null,
    outside: { usual: outside, any: outside },
    met: COMMON.includes(size) ? MET.common : MET.rare,
    source: 'ISO 1478, from memory',
  };
});
