import { useState } from 'preact/hooks';
import { formatNumber } from '../../../src/units/index.ts';
import { windowTyped } from './feel.ts';

interface WindowFieldsProps {
  readonly id: string;
  readonly window: readonly [number, number];
  readonly take: (window: [number, number]) => void;
}

/** Least and greatest clearance, mm. What is no window stays in the fields, with what is wrong; the last one holds. */
export function WindowFields({ id, window, take }: WindowFieldsProps) {
  const [texts, setTexts] = useState<readonly [string, string]>([
    formatNumber(window[0]),
    formatNumber(window[1]),
  ]);
  const typed = windowTyped(...texts);
  const refused = 'refused' in typed ? typed.refused : null;
  const set = (next: readonly [string, string]) => {
    setTexts(next);
    const read = windowTyped(...next);
    if ('value' in read) take(read.value);
  };
  const field = (end: 0 | 1, name: string) => (
    <label>
      {name}{' '}
      <input
        type="text"
        inputMode="decimal"
        autocomplete="off"
        data-own-undo
        value={texts[end]}
        aria-invalid={refused !== null}
        aria-describedby={refused === null ? undefined : `window-${id}`}
        onInput={({ currentTarget: { value } }) => set(end === 0 ? [value, texts[1]] : [texts[0], value])}
      />
    </label>
  );
  return (
    <div class="own window">
      {field(0, 'least')} {field(1, 'greatest')} mm
      {refused !== null && (
        <p id={`window-${id}`} class="refused" role="alert">
          {refused}; below 0 the part is larger than its place
        </p>
      )}
    </div>
  );
}
