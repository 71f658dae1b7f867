import type { Finding } from '../../../src/check/finding.ts';

/** Findings of the checks that look at how a part prints, by the last word of their id: a set has the id of its part before. */
const ABOUT_PRINTING = ['overhang', 'bridge', 'unsupported', 'contact', 'tip', 'bed', 'wall', 'gap'] as const;
/** Those for which a support would have to stand under the part. */
const ABOUT_SUPPORT = ['overhang', 'bridge', 'unsupported'] as const;

const isOne = (id: string, of: readonly string[], parts: readonly string[]): boolean =>
  of.includes(
    parts.reduce((rest, part) => (rest.startsWith(`${part}.`) ? rest.slice(part.length + 1) : rest), id),
  );

/** What is to mind when a job is printed, from its findings, and whether it prints without support. `parts` are the ids of
 *  the parts of a set. Findings come with their number on the list, from 1.
 *  @example printFindings([], []) // => { mind: [], support: false } */
export function printFindings(
  findings: readonly Finding[],
  parts: readonly string[],
): {
  readonly mind: readonly { readonly number: number; readonly finding: Finding }[];
  readonly support: boolean;
} {
  const open = findings
    .map((finding, k) => ({ number: k + 1, finding }))
    .filter(({ finding: { id, verdict } }) => verdict !== 'holds' && isOne(id, ABOUT_PRINTING, parts));
  return { mind: open, support: open.some(({ finding: { id } }) => isOne(id, ABOUT_SUPPORT, parts)) };
}
