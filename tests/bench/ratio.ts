/** Median of the times of `run`, ms, warmed. Preparation belongs outside of `run`. */
function medianTime(run: () => void, times: number): number {
  const taken: number[] = [];
  for (let k = 0; k < times; k++) {
    const start = performance.now();
    run();
    taken.push(performance.now() - start);
  }
  return median(taken);
}

/** Middle value; of an even number the mean of the middle two. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return sorted.length % 2 === 1 ? sorted[Math.floor(half)]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

export interface Ratio {
  readonly name: string;
  readonly ratio: number;
  /** What the goal is, and on which side of it. */
  readonly goal: { readonly side: 'at least' | 'at most'; readonly value: number };
  readonly detail: string;
}

/** Times two things in turn, A B A B, so that a machine that speeds up or slows down does so for both; the ratio is
 *  the median of the ratios of the rounds. */
export function sideBySide(
  a: () => void,
  b: () => void,
  { rounds, eachA = 1, eachB = 1 }: { rounds: number; eachA?: number; eachB?: number },
): { ratio: number; a: number; b: number } {
  medianTime(a, 3);
  medianTime(b, 1);
  const pairs = Array.from({ length: rounds }, () => [medianTime(a, eachA), medianTime(b, eachB)] as const);
  return {
    ratio: median(pairs.map(([first, second]) => first / second)),
    a: median(pairs.map(([first]) => first)),
    b: median(pairs.map(([, second]) => second)),
  };
}
