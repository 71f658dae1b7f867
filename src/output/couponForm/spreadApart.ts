/** Places along a line at least `gap` apart, in the order of the wished ones and as near to them as they can be: those
 *  that would overlap share their middle (isotonic regression by pooling neighbours).
 *  @example spreadApart([0, 1, 10], 3) // => [-1, 2, 10] */
export function spreadApart(wished: readonly number[], gap: number): number[] {
  const order = wished.map((_, k) => k).sort((a, b) => wished[a]! - wished[b]! || a - b);
  const pools: { sum: number; count: number }[] = [];
  order.forEach((index, rank) => {
    pools.push({ sum: wished[index]! - rank * gap, count: 1 });
    for (;;) {
      const [before, last] = [pools.at(-2), pools.at(-1)!];
      if (!before || before.sum / before.count <= last.sum / last.count) break;
      pools.pop();
      before.sum += last.sum;
      before.count += last.count;
    }
  });
  const means = pools.flatMap(({ sum, count }) => new Array<number>(count).fill(sum / count));
  const placed = new Array<number>(wished.length);
  order.forEach((index, rank) => {
    placed[index] = means[rank]! + rank * gap;
  });
  return placed;
}
