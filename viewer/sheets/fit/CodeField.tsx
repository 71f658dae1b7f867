import { useState } from 'preact/hooks';
import { clearanceWindow } from '../../../src/output/words/index.ts';
import { codeTyped } from './feel.ts';

interface CodeFieldProps {
  readonly id: string;
  /** Size of the machine there, mm. */
  readonly host: number;
  readonly code: string;
  readonly take: (code: string) => void;
}

/** A fit by its code of ISO 286-1, with the clearances it means at the size of the machine. */
export function CodeField({ id, host, code, take }: CodeFieldProps) {
  const [text, setText] = useState(code);
  const typed = codeTyped(text, host);
  const said =
    text.trim() === ''
      ? 'such as H8/f7'
      : 'refused' in typed
        ? typed.refused
        : `${clearanceWindow(typed.value)} mm`;
  const wrong = text.trim() !== '' && 'refused' in typed;
  return (
    <div class="own">
      <label>
        code{' '}
        <input
          type="text"
          autocomplete="off"
          spellcheck={false}
          maxLength={12}
          data-own-undo
          value={text}
          aria-invalid={wrong}
          aria-describedby={`code-${id}`}
          onInput={({ currentTarget: { value } }) => {
            setText(value);
            if ('value' in codeTyped(value, host)) take(value.trim());
          }}
        />
      </label>
      <p id={`code-${id}`} class={wrong ? 'refused' : 'said'} aria-live="polite">
        {said}
      </p>
    </div>
  );
}
