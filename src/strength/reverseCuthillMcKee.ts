/** Order of the points of a graph that keeps neighbours near one another, so that a skyline stays low.
 *
 *  E. Cuthill and J. McKee, Reducing the bandwidth of sparse symmetric matrices, ACM 1969; reversed after A. George
 *  1971 (both from memory). Neighbours of point p are `list[start[p]] .. list[start[p + 1] - 1]`. Returns `rank`:
 *  the place of each point in the order. Pieces that do not hang together come one after another. */
export function reverseCuthillMcKee(start: Int32Array, list: Int32Array): Int32Array {
  const n = start.length - 1;
  const degree = (p: number) => start[p + 1]! - start[p]!;
  const order: number[] = [];
  const seen = new Int32Array(n).fill(-1);
  let stamp = 0;
  /** Breadth first from `root`; the points met, by levels, least neighbours first. */
  const levels = (root: number): { met: number[]; depth: number } => {
    stamp++;
    const met = [root];
    const level = [0];
    seen[root] = stamp;
    for (let i = 0; i < met.length; i++) {
      const from = met.length;
      const p = met[i]!;
      for (let k = start[p]!; k < start[p + 1]!; k++) {
        const q = list[k]!;
        if (seen[q] === stamp) continue;
        seen[q] = stamp;
        met.push(q);
      }
      const added = met.splice(from).sort((a, b) => degree(a) - degree(b) || a - b);
      for (const q of added) {
        met.push(q);
        level.push(level[i]! + 1);
      }
    }
    return { met, depth: level[level.length - 1]! };
  };
  const placed = new Uint8Array(n);
  for (let p = 0; p < n; p++) {
    if (placed[p]) continue;
    // A far end of the piece: walk to the last level until it gets no further.
    let root = p;
    let found = levels(root);
    for (let i = 0; i < 8; i++) {
      const next = levels(found.met[found.met.length - 1]!);
      if (next.depth <= found.depth) break;
      root = next.met[0]!;
      found = next;
    }
    for (const q of levels(root).met) {
      placed[q] = 1;
      order.push(q);
    }
  }
  const rank = new Int32Array(n);
  order.forEach((p, i) => {
    rank[p] = n - 1 - i;
  });
  return rank;
}
