import { percent } from '../../src/output/words/index.ts';
import { useBench } from '../bench/bench.ts';

/** The verdict in one line: whether it fits, what that rests on, what to do next. Speaks when it changes. */
export function VerdictStrip() {
  const bench = useBench();
  const outcome = bench.outcome.value;
  const result = bench.made.value?.result;
  const missing = outcome?.kind === 'refused' ? outcome.problems : [];
  return (
    <section class={`verdict${bench.stale.value ? ' stale' : ''}`} aria-label="Verdict">
      <p role="status" aria-live="polite">
        {missing.length > 0 ? (
          <>
            <strong>Not yet.</strong> {missing[0]!.reason ?? missing[0]!.field}
            {missing.length > 1 ? `, and ${missing.length - 1} more` : ''}
          </>
        ) : result ? (
          <>
            <strong>{result.chance === null ? 'Chance not known' : percent(result.chance)}</strong>{' '}
            {result.chance === null ? '' : 'fits first time. '}
            {result.shares[0] ? `Doubt comes from ${result.shares[0].label}.` : ''}{' '}
            {result.advice ? `Next: ${result.advice.sentence} -> ${percent(result.advice.to)}` : ''}
          </>
        ) : (
          'reckoning ...'
        )}
      </p>
    </section>
  );
}
