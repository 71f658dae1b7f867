import type { Contributor } from '../measure/types.ts';
import type { FitLine, Share } from './types.ts';

/** Id and label of the doubt that belongs to each line alone. */
export const REPEATABILITY = { id: 'printer:repeatability', label: 'printer, from print to print' } as const;

/** Shares of the variance of a line's clearance, largest first, summing to 1: (a u)^2 of each contributor and the
 *  line's own spread^2 as `printer:repeatability`. For a Student contributor u is the standard uncertainty the GUM
 *  uses, without the widening for few degrees of freedom, so that shares agree with an uncertainty budget.
 *  Contributors without effect are left out. */
export function varianceShares(line: FitLine, contributors: readonly Contributor[]): Share[] {
  const parts = contributors.map(({ id, label, u }) => ({
    id,
    label,
    share: ((line.sensitivity[id] ?? 0) * u) ** 2,
  }));
  parts.push({ ...REPEATABILITY, share: line.spread ** 2 });
  return normalised(parts);
}

/** Shares of the doubt of the part as a whole, largest first, summing to 1: each line's variance shares, weighted by
 *  that line's chance of missing its window. A cause counts as much as the lines it disturbs are likely to
 *  miss; in lines that are sure to hold it counts for nothing. With every line as good as certain, all count alike. */
export function partShares(
  shares: Readonly<Record<string, readonly Share[]>>,
  chances: Readonly<Record<string, number>>,
): Share[] {
  const sum = new Map<string, Share>();
  for (const [line, list] of Object.entries(shares)) {
    const weight = Math.max(1 - chances[line]!, CERTAIN);
    for (const { id, label, share } of list)
      sum.set(id, { id, label, share: (sum.get(id)?.share ?? 0) + weight * share });
  }
  return normalised([...sum.values()]);
}

/** A chance of missing too small to be more than rounding. */
const CERTAIN = 1e-6;

function normalised(parts: readonly Share[]): Share[] {
  const total = parts.reduce((sum, part) => sum + part.share, 0);
  return parts
    .filter((part) => part.share > 0)
    .map((part) => ({ ...part, share: part.share / total }))
    .sort((a, b) => b.share - a.share);
}
