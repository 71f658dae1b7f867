import type { TargetedKeyboardEvent } from 'preact';
import type { InterfaceKind } from '../../../src/family/interface.ts';
import { spokenWord } from '../../../src/job/inspection/feltWord.ts';
import type { FeltWord } from '../../../src/job/trialSchema.ts';
import { capital } from '../measure/capital.ts';
import { type FeltLine, withFelt } from './feltDraft.ts';
import type { TryDesk } from './tryDesk.ts';

const words: readonly FeltWord[] = ['tight', 'right', 'loose'];

/** How one place felt, or several at once: three large words, and not tried. */
export function FeltRow({
  desk,
  line,
  kinds,
  next,
}: {
  readonly desk: TryDesk;
  readonly line: FeltLine;
  readonly kinds: ReadonlyMap<string, InterfaceKind>;
  /** Id of the line after it. */
  readonly next: string | undefined;
}) {
  const { id, name, ids, group, known } = line;
  const draft = desk.draft.value;
  const kind = ids.every((one) => kinds.get(one) === 'step') ? 'step' : 'post';
  const spoken = (word: FeltWord) => spokenWord(word, kind);
  if (known !== null)
    return (
      <p class="felt-row known">
        <b>{capital(name)}</b> <span>felt {spoken(known)}, as is on record</span>
      </p>
    );
  const chosen = draft.felt[id] ?? null;
  const choose = (word: FeltWord | null) => desk.say((now) => withFelt(now, id, word));
  const onKey = (event: TargetedKeyboardEvent<HTMLFieldSetElement>) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.key.length !== 1) return;
    const letter = event.key.toLowerCase();
    const word = words.find((one) => one.startsWith(letter) || spoken(one).startsWith(letter));
    if (word === undefined && letter !== 'n') return;
    event.preventDefault();
    choose(word ?? null);
    if (next !== undefined)
      document.getElementById(groupId(next))?.querySelector<HTMLElement>('input:checked')?.focus();
  };
  const isApart = group !== null && draft.apart.includes(group);
  const filed = draft.filed.includes(id);
  return (
    <fieldset class="felt-row" id={groupId(id)} onKeyDown={onKey}>
      <legend>{capital(name)}</legend>
      <span class="felt-words">
        {[...words, null].map((word) => (
          <label key={word ?? 'not tried'} class={`felt-word${word === null ? ' untried' : ` ${word}`}`}>
            <input type="radio" name={`felt-${id}`} checked={chosen === word} onChange={() => choose(word)} />
            {word !== null && <FeltShape word={word} kind={kind} />}
            {word === null ? 'not tried' : spoken(word)}
          </label>
        ))}
      </span>
      <span class="felt-more">
        <label>
          <input
            type="checkbox"
            checked={filed}
            onChange={() =>
              desk.say((now) => ({
                ...now,
                filed: filed ? now.filed.filter((one) => one !== id) : [...now.filed, id],
              }))
            }
          />{' '}
          filed or drilled first
        </label>
        {group !== null && (isApart || ids.length > 1) && (
          <button
            type="button"
            onClick={() =>
              desk.say((now) => ({
                ...now,
                apart: isApart ? now.apart.filter((one) => one !== group) : [...now.apart, group],
              }))
            }
          >
            {isApart ? 'as one again' : 'tell its sizes apart'}
          </button>
        )}
      </span>
    </fieldset>
  );
}

const groupId = (id: string): string => `felt-${id}`;

const faces: Readonly<Record<FeltWord, string>> = {
  tight: 'M1 3h9v10H1zM6 3h9v10H6zM6 9l4-4M6 12.5l4-4',
  right: 'M1 3h7v10H1zM8 3h7v10H8z',
  loose: 'M1 3h4v10H1zM11 3h4v10h-4z',
};
/** A length against the mark it should reach. */
const lengths: Readonly<Record<FeltWord, string>> = {
  tight: 'M1 6h5v4H1zM10 2v12',
  right: 'M1 6h9v4H1zM10 2v12',
  loose: 'M1 6h14v4H1zM10 2v12',
};

/** Two faces in one another, touching, apart; of a step a length that falls short, reaches, goes beyond. */
function FeltShape({ word, kind }: { readonly word: FeltWord; readonly kind: InterfaceKind }) {
  return (
    <svg viewBox="0 0 16 16" aria-hidden="true">
      <path d={(kind === 'step' ? lengths : faces)[word]} />
    </svg>
  );
}
