import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { useBench } from '../bench/bench.ts';
import { undoKey } from './undoKey.ts';

/** Takes back and does again, by buttons and by keys, and says what it was. In a field too the keys speak to the job: what
 *  is typed there is in it with every key. A field that keeps a text of its own says so by `data-own-undo`. */
export function UndoTools() {
  const bench = useBench();
  const { undoes, redoes } = bench.history;
  const said = useSignal<{ readonly words: string; readonly of: unknown } | null>(null);

  const go = (way: 'undo' | 'redo'): boolean => {
    const what = (way === 'undo' ? undoes : redoes).peek();
    if (what === null) return false;
    bench.history[way]();
    said.value = {
      words: `${way === 'undo' ? 'taken back' : 'done again'}: ${what}`,
      of: bench.job.peek(),
    };
    return true;
  };

  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const way = event.defaultPrevented ? null : undoKey(event);
      const own = event.target instanceof Element && event.target.closest('[data-own-undo]');
      if (way !== null && !own && go(way)) event.preventDefault();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, []);

  const fresh = said.value?.of === bench.job.value ? said.value : null;
  return (
    <div class="undo">
      <output class="said" aria-live="polite">
        {fresh?.words}
      </output>
      <UndoButton way="undo" what={undoes.value} act={() => go('undo')} />
      <UndoButton way="redo" what={redoes.value} act={() => go('redo')} />
    </div>
  );
}

function UndoButton(props: { way: 'undo' | 'redo'; what: string | null; act: () => void }) {
  const { way, what, act } = props;
  const verb = way === 'undo' ? 'Take back' : 'Do again';
  const keys = way === 'undo' ? 'Ctrl+Z' : 'Ctrl+Shift+Z';
  const name = what === null ? `${verb}: nothing` : `${verb}: ${what}`;
  return (
    // Not disabled: the focus would fall off the page with the last step.
    <button
      type="button"
      aria-disabled={what === null}
      aria-label={name}
      aria-keyshortcuts={way === 'undo' ? 'Control+Z' : 'Control+Shift+Z'}
      title={`${name} (${keys})`}
      onClick={act}
    >
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <g transform={way === 'redo' ? 'matrix(-1 0 0 1 24 0)' : undefined}>
          <path d="M5 9.5h9.5a5 5 0 0 1 0 10H9" />
          <path class="head" d="m3 9.5 6-3.4v6.8z" />
        </g>
      </svg>
    </button>
  );
}
