import type { TellingTest } from '../../standards/threads/tellApart.ts';
import { formatNumber } from '../../units/index.ts';

/** What to do to tell two threads apart, without their names, in the words of a bench.
 *  @example tellingSentence({ between: ['M3', '#4-40 UNC'], by: 'pitch', threads: 5, expected: [2.5, 3.175] })
 *  // => '5 threads are 2.50 mm long, not 3.18' */
export function tellingSentence(test: TellingTest): string {
  switch (test.by) {
    case 'pitch': {
      const [own, other] = test.expected;
      return `${test.threads} threads are ${formatNumber(own)} mm long, not ${formatNumber(other)}`;
    }
    case 'diameter': {
      const [own, other] = test.expected.map(({ lo, hi }) => `${formatNumber(lo)} .. ${formatNumber(hi)}`);
      return `unworn it is ${own} mm across, not ${other}`;
    }
    case 'angle': {
      const [own, other] = test.expected;
      return `a thread gauge of ${own} degrees sits without a rock, one of ${other} does not`;
    }
    case 'tip':
      return `${test.tapping} has a point or a cut end and takes no nut`;
    case 'nut':
      return 'a nut known to be one of them runs on all the way by hand';
  }
}
