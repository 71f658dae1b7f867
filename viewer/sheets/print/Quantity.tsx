import { useState } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';
import { MOST_OFF, quantityTyped } from '../../title/quantityTyped.ts';
import { Fact } from './Fact.tsx';

/** How many to print; the title block has the same number. */
export function Quantity() {
  const bench = useBench();
  const quantity = bench.job.value.quantity ?? 1;
  const [draft, setDraft] = useState<string | null>(null);
  const wrong = draft !== null && quantityTyped(draft) === null;
  const set = (to: number) => {
    setDraft(null);
    bench.change('quantity', (job) => ((job.quantity ?? 1) === to ? job : { ...job, quantity: to }), true);
  };
  return (
    <Fact name="off">
      <span class="stepper">
        <button
          type="button"
          aria-label="One fewer"
          aria-disabled={quantity <= 1}
          onClick={() => quantity > 1 && set(quantity - 1)}
        >
          −
        </button>
        <input
          type="text"
          inputMode="numeric"
          data-field="bed"
          aria-label="How many"
          autocomplete="off"
          value={draft ?? String(quantity)}
          aria-invalid={wrong ? true : undefined}
          aria-describedby={wrong ? 'off-wrong' : undefined}
          onInput={({ currentTarget: { value } }) => {
            const typed = quantityTyped(value);
            if (typed !== null) set(typed);
            setDraft(value);
          }}
          onBlur={() => setDraft(null)}
        />
        <button
          type="button"
          aria-label="One more"
          aria-disabled={quantity >= MOST_OFF}
          onClick={() => quantity < MOST_OFF && set(quantity + 1)}
        >
          +
        </button>
      </span>
      {wrong && (
        <span id="off-wrong" class="aside" role="alert">
          {' '}
          a whole number from 1 to {MOST_OFF}; still {quantity}
        </span>
      )}
    </Fact>
  );
}
