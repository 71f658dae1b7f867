import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';
import { problemAt } from './problemAt.ts';

/** How long typing must pause until a text that cannot be read goes into the job all the same, where it is named as what
 *  stands in the way, ms. */
const PAUSE = 900;

/** A setting typed as text. What can be read counts at once; what cannot, when typing pauses: nothing typed is lost. */
export function TextSetting({
  field,
  label,
  value,
  readable,
  change,
  placeholder = '',
  unit,
  tip,
  longest = 40,
  numeric = true,
}: {
  /** Its path in the job: `callipers.zero`. */
  readonly field: string;
  readonly label: string;
  readonly value: string;
  readonly readable: (text: string) => boolean;
  /** Blank takes the setting out of the job. */
  readonly change: (text: string) => void;
  readonly placeholder?: string;
  readonly unit?: string;
  readonly tip?: ComponentChildren;
  readonly longest?: number;
  readonly numeric?: boolean;
}) {
  const id = useId();
  const problem = problemAt(useBench(), field);
  const [typed, setTyped] = useState<string | null>(null);
  const pause = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(pause.current), []);
  const settle = (text: string) => {
    clearTimeout(pause.current);
    if (text.trim() !== value) change(text.trim());
  };
  return (
    <div class="setting">
      <label for={id}>{label}</label>
      <span class="entry">
        <input
          id={id}
          data-field={field}
          type="text"
          inputMode={numeric ? 'decimal' : 'text'}
          autoComplete="off"
          spellcheck={false}
          maxLength={longest}
          class={numeric ? '' : 'wide'}
          value={typed ?? value}
          placeholder={placeholder}
          aria-invalid={problem ? true : undefined}
          aria-describedby={problem || tip ? `${id}-words` : undefined}
          onInput={({ currentTarget: { value: text } }) => {
            setTyped(text);
            clearTimeout(pause.current);
            if (text.trim() === '' || readable(text)) settle(text);
            else pause.current = setTimeout(() => settle(text), PAUSE);
          }}
          onBlur={({ currentTarget }) => {
            if (typed !== null) settle(currentTarget.value);
            setTyped(null);
          }}
        />
        {unit && <span class="unit">{unit}</span>}
      </span>
      <span id={`${id}-words`} class="tip">
        {problem && (
          <strong class="refused">
            {problem.reason ? `${problem.reason}; ` : ''}allowed: {problem.allowed}.{' '}
          </strong>
        )}
        {tip}
      </span>
    </div>
  );
}
