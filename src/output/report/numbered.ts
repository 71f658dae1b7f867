import type { ReportFinding } from './reportInput.ts';

export type NumberedFinding = ReportFinding & { readonly number: number };

/** Findings with their place in the list of the result, the same one in every view of it. */
export const numbered = (findings: readonly ReportFinding[]): readonly NumberedFinding[] =>
  findings.map((finding, k) => ({ ...finding, number: k + 1 }));

/** Those that want looking at, the gravest first. */
export const grave = (findings: readonly NumberedFinding[]): readonly NumberedFinding[] =>
  (['fails', 'caution'] as const).flatMap((verdict) =>
    findings.filter((finding) => finding.verdict === verdict),
  );
