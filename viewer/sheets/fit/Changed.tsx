import type { MakeResult } from '../../../src/job/result.ts';
import { sentence } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';

/** What earlier prints changed about the sizes that are drawn, and why. */
export function Changed({ changed }: { readonly changed: NonNullable<MakeResult['changed']> }) {
  return (
    <section>
      <h2>Drawn otherwise after earlier prints</h2>
      <dl class="changed">
        {changed.map(({ id, name, before, after, because }) => (
          <div key={id}>
            <dt>
              {name}: draw <b>{formatNumber(after)}</b> instead of {formatNumber(before)} mm
            </dt>
            <dd>{sentence(because)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
