import type { ReportFinding } from './reportInput.ts';

type Verdict = ReportFinding['verdict'];

/** What a verdict is called. */
export const verdictWord: Readonly<Record<Verdict, string>> = {
  holds: 'holds',
  caution: 'caution',
  fails: 'fails',
};

/** Verdicts by shape first: tick, triangle, cross; path data in a square of 20 units. */
export const markLines: Readonly<Record<Verdict, readonly string[]>> = {
  holds: ['M3 10.5 8 15.5 17 4.5'],
  caution: ['M10 2.5 18.5 17.5h-17Z', 'M10 8v4.6M10 14.6v.6'],
  fails: ['M4 4 16 16M16 4 4 16'],
};

/** The sign of a verdict; `said` when no word stands beside it that a screen reader could read. */
export function mark(verdict: Verdict, said = false): string {
  const heard = said ? `role="img" aria-label="${verdictWord[verdict]}"` : 'aria-hidden="true"';
  const lines = markLines[verdict].map((d) => `<path d="${d}"/>`).join('');
  return `<svg class="mark ${verdict}" ${heard} viewBox="0 0 20 20" width="20" height="20">${lines}</svg>`;
}

/** The number of a finding, round as on an assembly drawing. */
export const balloon = (number: number): string => `<span class="balloon-text">${number}</span>`;

/** The same as a way to the finding. */
export const balloonLink = (number: number): string =>
  `<a class="balloon-text" href="#finding-${number}">${number}</a>`;
