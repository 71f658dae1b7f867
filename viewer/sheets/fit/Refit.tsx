import type { MakeResult } from '../../../src/job/result.ts';
import { sentence } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';

/** What was done to a model that was there before; nothing is ever scaled. */
export function Refit({ changes }: { readonly changes: NonNullable<MakeResult['changes']> }) {
  return (
    <section>
      <h2>Changed on the model</h2>
      <ul>
        {changes.map(({ axis, by, spans, exact, mismatchArea, because }) => (
          <li key={axis.join()}>
            {by < 0 ? 'Shorter' : 'Longer'} by <b>{formatNumber(Math.abs(by))} mm</b>, taken up between{' '}
            {spans.map(({ from, to }) => `${formatNumber(from)} and ${formatNumber(to)}`).join('; ')} mm;{' '}
            {exact ? 'it leaves no trace' : `sections differ by ${formatNumber(mismatchArea)} mm²`}.{' '}
            {sentence(because)}
          </li>
        ))}
      </ul>
    </section>
  );
}
