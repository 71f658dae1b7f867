import type { PrintClearance } from './printClearance.ts';

/** What is to be done with a print, by one of its sizes. `close`: inside as read, but not surely. `below` and `above`
 *  the window: too tight and too loose, of a step too short and too long. */
export type Decision = 'pass' | 'close' | 'below' | 'above';

/** The rule by which a print is judged, as data. */
export const decisionRule = {
  /** Least chance of lying inside the window at which nothing more need be done. */
  pass: 0.95,
  /** Chance of lying inside above which a print that reads outside is worth reading again. */
  readAgain: 0.05,
  source:
    'guarded acceptance and rejection by conformance probability, JCGM 106:2012, 8.3 (from memory); risk of one in twenty: common practice, no source',
} as const;

/** Judges a clearance against its window: passed when it is inside with a chance of 95 % or more, outside when the best
 *  estimate is. In between the estimate is inside and the doubt is not.
 *  @example decide({ value: 0.075, u: 0.02, inside: 0.9998, below: 0.0001, above: 0.0001 }, [0, 0.15]) // => 'pass' */
export function decide({ value, inside }: PrintClearance, [lo, hi]: readonly [number, number]): Decision {
  if (inside >= decisionRule.pass) return 'pass';
  if (value < lo) return 'below';
  return value > hi ? 'above' : 'close';
}
