import { useEffect, useState } from 'preact/hooks';
import { useBench } from '../bench/bench.ts';
import { MOST_OFF, quantityTyped } from './quantityTyped.ts';

/** How many to make; what is no number stays in the box, marked, and the job keeps its own. */
export function QuantityCell() {
  const bench = useBench();
  const quantity = bench.job.value.quantity ?? 1;
  const [draft, setDraft] = useState<string | null>(null);
  // Undo, or another tab, says otherwise than what was typed.
  useEffect(() => {
    if (draft !== null && quantityTyped(draft) !== null && quantityTyped(draft) !== quantity) setDraft(null);
  }, [quantity]);
  const wrong = draft !== null && quantityTyped(draft) === null;
  const set = (to: number, joined: boolean) =>
    bench.change('quantity', (job) => ((job.quantity ?? 1) === to ? job : { ...job, quantity: to }), joined);
  return (
    <label class={`cell quantity${wrong ? ' wrong' : ''}`}>
      <span class="label">quantity</span>
      <span class="content">
        <input
          type="text"
          inputMode="numeric"
          data-field="quantity"
          autocomplete="off"
          value={draft ?? String(quantity)}
          aria-invalid={wrong}
          aria-describedby={wrong ? 'quantity-wrong' : undefined}
          onInput={({ currentTarget: { value } }) => {
            setDraft(value);
            const typed = quantityTyped(value);
            if (typed !== null) set(typed, true);
          }}
          onBlur={() => {
            if (!wrong) setDraft(null);
          }}
          onKeyDown={(event) => {
            const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
            if (by === undefined) return;
            event.preventDefault();
            setDraft(null);
            set(Math.min(MOST_OFF, Math.max(1, quantity + by)), true);
          }}
        />{' '}
        off
      </span>
      {wrong && (
        <small id="quantity-wrong" role="alert">
          a whole number from 1 to {MOST_OFF}; still {quantity}
        </small>
      )}
    </label>
  );
}
