import { day } from '../../../src/output/words/index.ts';
import { SizesChanged } from './SizesChanged.tsx';
import type { TryDesk } from './tryDesk.ts';

/** What has changed about the drawing since one of the prints. */
export function WhatChanged({ desk }: { readonly desk: TryDesk }) {
  const trials = desk.bench.job.value.trials ?? [];
  const changes = desk.changes.value;
  const answer = desk.answer.value;
  if (trials.length === 0) return null;
  const chosen = desk.since.value ?? changes?.since ?? trials.length - 1;
  return (
    <section class="what-changed" aria-labelledby="what-changed">
      <h2 id="what-changed">What changed since a print</h2>
      <p class="since">
        <label for="changed-since">since</label>{' '}
        <select
          id="changed-since"
          value={String(chosen)}
          onChange={({ currentTarget }) => {
            desk.since.value = Number(currentTarget.value);
          }}
        >
          {trials.map(({ date, made }, k) => (
            <option key={made + date} value={String(k)}>
              print {k + 1}, {day(date)}
            </option>
          ))}
        </select>
      </p>
      {answer?.kind === 'recorded' && answer.told.index === chosen ? (
        <p>As told above, where print {chosen + 1} was put on record.</p>
      ) : changes === null ? (
        <p class="waiting">reckoning ...</p>
      ) : (
        <div class={changes.since === chosen ? '' : 'stale'}>
          <SizesChanged sizes={changes.sizes} unit={desk.reading.unit} print={`print ${changes.since + 1}`} />
        </div>
      )}
    </section>
  );
}
