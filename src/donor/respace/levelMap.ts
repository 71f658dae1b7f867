import { RespaceRefusal } from './respaceRefusal.ts';

/** A stretch along an axis that becomes longer (`by` above 0) or shorter. */
export interface TakeUp {
  readonly from: number;
  readonly to: number;
  readonly by: number;
}

/** The monotone piecewise-linear map of levels that some take-ups make. */
export interface LevelMap {
  /** Ends of all take-ups, from low to high: between them everything moves alike or in proportion. */
  readonly breaks: Float64Array;
  /** How far a level moves. The very same number for every level between two take-ups. */
  shift(level: number): number;
  /** Which piece a level lies on: even ones are rigid, odd ones are take-ups. */
  piece(level: number): number;
}

/** Share of a level that turning into the frame of an axis and back may cost. */
const HAIR = 1e-12;

/** The map of some take-ups, in any order. `stays` is a level that does not move; below all take-ups by default.
 *  Throws `RespaceRefusal` for take-ups without length, that overlap, or that would leave nothing of themselves. */
export function levelMap(takeUps: readonly TakeUp[], stays = -Infinity): LevelMap {
  const sorted = [...takeUps].sort((a, b) => a.from - b.from);
  sorted.forEach(({ from, to, by }, k) => {
    const told = `${from} to ${to} by ${by}`;
    if (![from, to, by].every(Number.isFinite)) throw new RespaceRefusal('not_finite', 'numbers', told);
    if (!(to > from)) throw new RespaceRefusal('take_up_empty', 'to above from', told);
    if (!(to - from + by > 0))
      throw new RespaceRefusal('take_up_too_short', `more than ${-(to - from)} taken up`, told);
    const before = sorted[k - 1];
    if (before && from < before.to)
      throw new RespaceRefusal(
        'take_ups_overlap',
        'stretches beside each other',
        `${before.from} to ${before.to}, ${told}`,
      );
  });
  const breaks = Float64Array.from(sorted.flatMap(({ from, to }) => [from, to]));
  const longest = Math.max(0, ...sorted.map(({ from, to }) => to - from));
  const sums = [0];
  for (const { by } of sorted) sums.push(sums.at(-1)! + by);
  // An end belongs to the rigid side, and so does a vertex that rounding pushed a hair past it.
  const ends = breaks.map((end, k) => end + (k % 2 === 0 ? HAIR : -HAIR) * Math.max(Math.abs(end), longest));
  const piece = (level: number): number => {
    let k = 0;
    while (k < ends.length && (k % 2 === 0 ? level > ends[k]! : level >= ends[k]!)) k++;
    return k;
  };
  const raw = (level: number): number => {
    const k = piece(level);
    if (k % 2 === 0) return sums[k / 2]!;
    const { from, to, by } = sorted[(k - 1) / 2]!;
    return sums[(k - 1) / 2]! + (by * (level - from)) / (to - from);
  };
  const start = raw(stays);
  // Rigid pieces get their one number here, so that no two levels of a piece differ by rounding.
  const rigid = sums.map((sum) => sum - start);
  return {
    breaks,
    piece,
    shift: (level) => {
      const k = piece(level);
      return k % 2 === 0 ? rigid[k / 2]! : raw(level) - start;
    },
  };
}
