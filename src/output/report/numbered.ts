import type { ReportFinding } from './reportInput.ts';

export type Numbered<F> = F & { readonly number: number };
export type NumberedFinding = Numbered<ReportFinding>;

/** Findings with their place in the list of the result, the same one in every view of it. */
export const numbered = <F extends object>(findings: readonly F[]): readonly Numbered<F>[] =>
  findings.map((finding, k) => ({ ...finding, number: k + 1 }));

/** Those that want looking at, the gravest first. */
export const grave = <F extends Pick<ReportFinding, 'verdict'>>(findings: readonly F[]): readonly F[] =>
  (['fails', 'caution'] as const).flatMap((verdict) =>
    findings.filter((finding) => finding.verdict === verdict),
  );
