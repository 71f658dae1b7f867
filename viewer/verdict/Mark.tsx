import { markLines, verdictWord } from '../../src/output/report/marks.ts';
import type { VerdictMark } from './verdictWords.ts';

const lines = { ...markLines, open: ['M4 10h12'] } as const;
const words = { ...verdictWord, open: 'not yet' } as const;

/** The sign of a verdict by its shape: tick, triangle, cross, dash. `said` where no word stands beside it. */
export function Mark({ verdict, said = false }: { readonly verdict: VerdictMark; readonly said?: boolean }) {
  const shapes = lines[verdict].map((d) => <path key={d} d={d} />);
  return said ? (
    <svg class={`mark ${verdict}`} viewBox="0 0 20 20" role="img" aria-label={words[verdict]}>
      {shapes}
    </svg>
  ) : (
    <svg class={`mark ${verdict}`} viewBox="0 0 20 20" aria-hidden="true">
      {shapes}
    </svg>
  );
}
