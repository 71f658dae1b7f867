import { focusReading } from './focusReading.ts';
import type { ReadingDesk, Row } from './readingDesk.ts';

/** The numbers of a reading as typed; each can be put back into the field to be corrected or taken away. */
export function NumbersTaken({ desk, row }: { readonly desk: ReadingDesk; readonly row: Row }) {
  const { facts, texts, refusals, dimension } = row;
  const draft = desk.typing.draft.value?.id === facts.id ? desk.typing.draft.value : null;
  const odd = new Set(dimension?.remarks.flatMap(({ index }) => (index === undefined ? [] : [index])) ?? []);
  const wanting = Math.max(0, facts.times - texts.length);
  return (
    <>
      <ol class="numbers" aria-label="Numbers so far">
        {texts.map((text, k) => (
          <li key={k}>
            <button
              type="button"
              class={`number${draft?.slot === k ? ' picked' : ''}${refusals[k] != null ? ' refused' : odd.has(k) ? ' doubtful' : ''}`}
              aria-label={`Correct number ${k + 1}, ${text}`}
              onClick={() => {
                desk.typing.open(facts.id, k);
                focusReading(facts.id, text);
              }}
            >
              {text}
            </button>
          </li>
        ))}
        {Array.from({ length: wanting }, (_, k) => (
          <li key={`wanting ${k}`} class="wanting" aria-hidden="true" />
        ))}
      </ol>
      {draft?.original !== undefined && (
        <button
          type="button"
          class="take-away"
          onClick={() => {
            desk.typing.takeAway();
            focusReading(facts.id, '');
          }}
        >
          take {draft.original} away
        </button>
      )}
    </>
  );
}
