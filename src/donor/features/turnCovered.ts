const TURN = 2 * Math.PI;

/** How much of a full turn a set of angular stretches covers, and the widest gap between them.
 *  `stretches`: from, to, from, to, ... in radians, to at or above from; they may overlap and pass the half turn.
 *  Both answers in turns, 0 to 1.
 *  @example turnCovered([0, Math.PI / 2, Math.PI, 1.5 * Math.PI]) // => { covered: 0.5, gap: 0.25 } */
export function turnCovered(stretches: readonly number[]): {
  readonly covered: number;
  readonly gap: number;
} {
  const cut: [number, number][] = [];
  for (let i = 0; i < stretches.length; i += 2) {
    const length = stretches[i + 1]! - stretches[i]!;
    if (length >= TURN) return { covered: 1, gap: 0 };
    const from = ((stretches[i]! % TURN) + TURN) % TURN;
    const to = from + length;
    if (to > TURN) cut.push([from, TURN], [0, to - TURN]);
    else cut.push([from, to]);
  }
  const [first] = cut.sort((a, b) => a[0] - b[0]);
  if (first === undefined) return { covered: 0, gap: 1 };
  let [covered, gap, end] = [0, 0, first[0]];
  for (const [from, to] of cut) {
    gap = Math.max(gap, from - end);
    covered += Math.max(0, to - Math.max(from, end));
    end = Math.max(end, to);
  }
  gap = Math.max(gap, first[0] + TURN - end);
  // What rounding leaves between neighbours is no gap.
  const rest = gap < 1e-6 ? 0 : gap / TURN;
  return { covered: rest === 0 ? 1 : covered / TURN, gap: rest };
}
