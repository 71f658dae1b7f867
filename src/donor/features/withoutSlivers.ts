/** Rounds of flips at most; each mends every sliver whose neighbour is none. */
const MOST_ROUNDS = 8;

/** Triangles of a flat region with its slivers gone: where three corners lie on one line, the middle one belongs to the triangle across the
 *  long side. `flat`: coordinates in the plane; `least`: heights below this make a sliver. Numbers of corners in and out, counter-clockwise. */
export function withoutSlivers(
  triangles: readonly number[],
  flat: (v: number) => readonly [number, number],
  least: number,
): number[] {
  const list = [...triangles];
  const key = (a: number, b: number) => a * 2 ** 26 + b;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const at = new Map<number, number>();
    for (let h = 0; h < list.length; h++) at.set(key(list[h]!, list[next(h)]!), h);
    const touched = new Set<number>();
    for (let t = 0; t < list.length; t += 3) {
      const { height, longest } = shapeOf(t);
      if (height >= least) continue;
      const mate = at.get(key(list[next(longest)]!, list[longest]!));
      if (mate === undefined) continue;
      const other = 3 * Math.floor(mate / 3);
      if (touched.has(t) || touched.has(other)) continue;
      touched.add(t).add(other);
      // From a b m and b a x to a x m and x b m.
      const [a, b] = [list[longest]!, list[next(longest)]!];
      const [m, x] = [list[next(next(longest))]!, list[next(next(mate))]!];
      list.splice(t, 3, a, x, m);
      list.splice(other, 3, x, b, m);
    }
    if (touched.size === 0) break;
  }
  return list;

  function shapeOf(t: number): { height: number; longest: number } {
    const [p, q, r] = [flat(list[t]!), flat(list[t + 1]!), flat(list[t + 2]!)];
    const sides = [
      Math.hypot(q[0] - p[0], q[1] - p[1]),
      Math.hypot(r[0] - q[0], r[1] - q[1]),
      Math.hypot(p[0] - r[0], p[1] - r[1]),
    ];
    const length = Math.max(...sides);
    const twice = (q[0] - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (q[1] - p[1]);
    return { height: length === 0 ? 0 : twice / length, longest: t + sides.indexOf(length) };
  }
}

const next = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);
