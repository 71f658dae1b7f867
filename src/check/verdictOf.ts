import type { Finding, Verdict } from './finding.ts';

/** Verdict and margin of a value that must stay on one side of its limit. From `caution` of the limit on (a share of
 *  it, 1 for none) it is a caution, beyond the limit it fails.
 *  @example verdictOf(1.9, 2.1, 'below') // => { verdict: 'caution', margin: 0.2 } with caution at 0.85 */
export function verdictOf(
  value: number,
  limit: number,
  side: 'below' | 'above',
  caution = 1,
): Pick<Finding, 'verdict' | 'margin'> {
  const margin = side === 'below' ? limit - value : value - limit;
  const near = side === 'below' ? limit * caution : limit / caution;
  const past = side === 'below' ? value > near : value < near;
  const verdict: Verdict = margin < 0 ? 'fails' : past ? 'caution' : 'holds';
  return { verdict, margin };
}

/** `value` unless the finding holds, for remedies. */
export const unlessHolds = (verdict: Verdict, remedy: string): string => (verdict === 'holds' ? '' : remedy);

const rounded = (value: number, digits: number): string => value.toFixed(digits);
/** Lengths, forces and ratios in sentences. */
export const mm = (value: number): string => `${rounded(value, 2)} mm`;
export const newton = (value: number): string => `${rounded(value, 1)} N`;
export const percent = (fraction: number): string => `${rounded(100 * fraction, 1)} %`;
