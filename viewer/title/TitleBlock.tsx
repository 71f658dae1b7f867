import type { ComponentChildren } from 'preact';
import { useBench } from '../bench/bench.ts';

/** What a drawing's title block holds; edited where it stands. */
export function TitleBlock() {
  const bench = useBench();
  const job = bench.job.value;
  const result = bench.made.value?.result;
  return (
    <section class="title-block" aria-label="Title block">
      <Cell name="part">
        <input
          aria-label="Title"
          value={job.title ?? ''}
          maxLength={200}
          onInput={({ currentTarget: { value } }) =>
            bench.change('title', (now) => ({ ...now, title: value }), true)
          }
        />
      </Cell>
      <Cell name="off">
        <input
          aria-label="Quantity"
          inputMode="numeric"
          value={job.quantity ?? 1}
          onInput={({ currentTarget: { value } }) => {
            const quantity = Number(value);
            if (Number.isInteger(quantity) && quantity >= 1 && quantity <= 1000)
              bench.change('quantity', (now) => ({ ...now, quantity }), true);
          }}
        />
      </Cell>
      <Cell name="material">{result?.job.material ?? job.material ?? ''}</Cell>
      <Cell name="printer">{result?.job.printer ?? ''}</Cell>
      <Cell name="job">{result?.job.hash.slice(0, 8) ?? ''}</Cell>
    </section>
  );
}

function Cell({ name, children }: { readonly name: string; readonly children: ComponentChildren }) {
  return (
    <div class="cell">
      <span class="label">{name}</span>
      {children}
    </div>
  );
}
