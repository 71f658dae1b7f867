import type { TargetedKeyboardEvent } from 'preact';
import { undoKey } from '../../start/undoKey.ts';
import type { Typing } from './typing.ts';

interface NumberFieldProps {
  readonly typing: Typing;
  /** Of the reading. */
  readonly id: string;
  /** Of the element. */
  readonly fieldId: string;
  readonly unit: 'mm' | 'in';
  readonly times: number;
  readonly label?: string;
  readonly describedBy: string;
  /** Whether a number of the reading cannot be used. */
  readonly refused: boolean;
  /** What stands in the field while nothing is typed there. */
  readonly shown: string;
  readonly hint?: string;
  /** Puts the cursor into the field of another reading. */
  readonly goTo: (id: string) => void;
  /** What is to happen on undo and redo, where the numbers are in no job. */
  readonly onUndo?: (way: 'undo' | 'redo') => void;
}

/** The field of a reading, its numbers typed one after the other. */
export function NumberField(props: NumberFieldProps) {
  const { typing, id, fieldId, unit, times, label, describedBy, refused, shown, hint = '' } = props;
  const draft = typing.draft.value?.id === id ? typing.draft.value : null;
  const wrong = draft?.rested && draft.text !== '' && typing.judged(draft.text) !== null;
  return (
    <input
      id={fieldId}
      type="text"
      // The decimal pad of a phone has no stroke for fractions of an inch.
      inputMode={unit === 'in' ? 'text' : 'decimal'}
      enterKeyHint="next"
      autoComplete="off"
      autoCorrect="off"
      spellcheck={false}
      maxLength={200}
      aria-label={label}
      aria-invalid={refused || wrong ? true : undefined}
      aria-describedby={draft ? describedBy : undefined}
      placeholder={draft ? `${draft.slot + 1} of ${Math.max(times, draft.slot + 1)}` : hint}
      value={draft ? draft.text : (typing.left.value.get(id) ?? shown)}
      onFocus={({ currentTarget }) => {
        typing.open(id);
        showDraft(currentTarget, typing);
      }}
      onBlur={({ currentTarget }) => {
        // Another window has the keyboard for a while; the number is still being typed.
        if (document.activeElement !== currentTarget) typing.leave(id);
      }}
      onInput={({ currentTarget }) => typing.type(currentTarget.value)}
      onKeyDown={(event) => onKey(event, props)}
    />
  );
}

/** Puts the draft into the field at once: callipers with a cable type the next number before a redraw. Marked, so that the
 *  next number replaces what is there. */
function showDraft(input: HTMLInputElement, typing: Typing): void {
  input.value = typing.draft.peek()?.text ?? '';
  input.select();
}

function onKey(
  event: TargetedKeyboardEvent<HTMLInputElement>,
  { typing, goTo, onUndo }: NumberFieldProps,
): void {
  const way = onUndo && undoKey(event);
  if (way) {
    event.preventDefault();
    onUndo(way);
    return;
  }
  if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
  const input = event.currentTarget;
  switch (event.key) {
    case 'Enter': {
      const next = typing.enter();
      if (next === null) showDraft(input, typing);
      else goTo(next);
      break;
    }
    case 'ArrowUp':
    case 'ArrowDown':
      typing.step(event.key === 'ArrowUp' ? -1 : 1);
      showDraft(input, typing);
      break;
    case 'Backspace': {
      // From an empty field back into the number before it.
      const { text, slot } = typing.draft.peek() ?? { text: '', slot: 0 };
      if (text !== '' || slot === 0) return;
      typing.step(-1);
      showDraft(input, typing);
      break;
    }
    case 'Escape':
      typing.giveUp();
      showDraft(input, typing);
      break;
    default:
      return;
  }
  event.preventDefault();
}
