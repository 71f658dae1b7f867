import { power } from '../../arithmetic/power.ts';
import { type Thread, tidy } from './thread.ts';

/** Sizes made here: 0BA to 8BA. */
const LARGEST_NUMBER = 8;

/** How often they are met: those of even number are the preferred ones. Common practice, no source. */
const MET = { even: 0.2, odd: 0.03 } as const;

/** British Association threads 0BA to 8BA, BS 93: pitch 0.9^n mm and diameter 6 p^1.2 mm, each to two significant figures;
 *  47.5 degrees; depth of thread 0.6 p.
 *
 *  Outside diameter from memory of BS 93: close class to 0.15 p below nominal, normal class to 0.20 p below a greatest size
 *  that is up to 0.025 mm below nominal. Usual and any are the same for want of better.
 *  @example britishAssociationThreads[6] // => 6BA, nominal 2.8, pitch 0.53 */
export const britishAssociationThreads: readonly Thread[] = Array.from(
  { length: LARGEST_NUMBER + 1 },
  (_, number): Thread => {
    const exact = power(0.9, number);
    const pitch = Number(exact.toPrecision(2));
    const nominal = Number((6 * power(exact, 1.2)).toPrecision(2));
    const outside = { lo: tidy(nominal - 0.025 - 0.2 * pitch), hi: nominal };
    return {
      designation: `${number}BA`,
      system: 'british-association',
      series: 'only',
      nominal,
      pitch,
      angle: 47.5,
      basic: { pitchDiameter: nominal - 0.6 * pitch, minorDiameter: nominal - 1.2 * pitch },
      outside: { usual: outside, any: outside },
      met: number % 2 === 0 ? MET.even : MET.odd,
      source: 'BS 93; outside diameter from memory',
    };
  },
);
