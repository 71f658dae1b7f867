/** A value and its standard uncertainty, both in mm. */
export interface Known {
  readonly value: number;
  readonly u: number;
}

/** Standard uncertainty, mm, of setting jaws or a rule over the same place of two crests. Common practice, no source. */
const SETTING = 0.05;

/** Pitch from a length over so many threads, crest to crest: the doubt of reading and setting is shared by all of them.
 *  `length` in mm, `threads` a whole number from 1.
 *  @example pitchOver({ value: 7.9, u: 0.02 }, 10) // => { value: 0.79, u: 0.0053... } */
export const pitchOver = ({ value, u }: Known, threads: number): Known => ({
  value: value / threads,
  u: Math.hypot(u, SETTING) / threads,
});
