import type { TargetedKeyboardEvent } from 'preact';
import type { Aside } from './aside.ts';
import { capital } from './capital.ts';
import { figure, unitShown } from './figures.ts';
import { fieldId, focusReading } from './focusReading.ts';
import type { ReadingDesk, Row } from './readingDesk.ts';
import { stateWords } from './readingState.ts';
import { SpreadBar } from './SpreadBar.tsx';
import { StateMark } from './StateMark.tsx';

/** Where a field stands on the drawing: width of the sheet, and left, top, width and height, mm. */
export interface FieldPlace {
  readonly sheet: number;
  readonly field: readonly [number, number, number, number];
}

/** One reading: its name, its field, what has been typed and what that comes to. */
export function ReadingRow({
  desk,
  row,
  place,
  aside,
}: {
  readonly desk: ReadingDesk;
  readonly row: Row;
  readonly place: FieldPlace | undefined;
  readonly aside: ReturnType<Aside> | undefined;
}) {
  const { facts, number, texts, dimension, state, sizes } = row;
  const { id, name, unit } = facts;
  const job = desk.unit;
  const draft = desk.draft.value?.id === id ? desk.draft.value : null;
  const mean = dimension && figure(dimension.value, unit, job, dimension.u);
  const shownUnit = unitShown(unit, job);
  return (
    // biome-ignore lint/a11y/noRedundantRoles: see ReadingsTable
    <tr role="row" class={`reading ${state}${draft ? ' current' : ''}${place ? ' placed' : ' unplaced'}`}>
      {/* biome-ignore lint/a11y/noRedundantRoles: see ReadingsTable */}
      <th scope="row" role="rowheader">
        <span class="ordinal">{number}</span> {capital(name)}
      </th>
      {/* biome-ignore lint/a11y/noRedundantRoles: see ReadingsTable */}
      <td role="cell" class="field" style={place ? placed(place) : {}}>
        <span class="ordinal" aria-hidden="true">
          {number}
        </span>
        <input
          id={fieldId(id)}
          type="text"
          // The decimal pad of a phone has no stroke for fractions of an inch.
          inputMode={job === 'in' ? 'text' : 'decimal'}
          enterKeyHint="next"
          autoComplete="off"
          autoCorrect="off"
          spellcheck={false}
          maxLength={200}
          aria-label={`${number} ${name}${shownUnit ? `, ${shownUnit}` : ''}`}
          aria-invalid={state === 'refused' || (draft?.rested && draft.text !== '') ? true : undefined}
          aria-describedby={draft ? 'reading-doubt reading-tip' : undefined}
          placeholder={
            draft ? `${draft.slot + 1} of ${Math.max(facts.times, draft.slot + 1)}` : (aside?.hint ?? '')
          }
          value={draft ? draft.text : (row.left ?? mean ?? texts.at(-1) ?? '')}
          onFocus={({ currentTarget }) => {
            desk.open(id);
            showDraft(currentTarget, desk);
          }}
          onBlur={({ currentTarget }) => {
            // Another window has the keyboard for a while; the number is still being typed.
            if (document.activeElement !== currentTarget) desk.leave(id);
          }}
          onInput={({ currentTarget }) => desk.type(currentTarget.value)}
          onKeyDown={(event) => onKey(event, desk)}
        />
        {aside?.mark ?? <StateMark state={state} />}
        {dimension && sizes.length > 0 && <SpreadBar sizes={sizes} dimension={dimension} />}
      </td>
      {/* biome-ignore lint/a11y/noRedundantRoles: see ReadingsTable */}
      <td role="cell" class="texts">
        {texts.join('   ')}
      </td>
      {/* biome-ignore lint/a11y/noRedundantRoles: see ReadingsTable */}
      <td role="cell" class="mean">
        {dimension && `${mean} ± ${figure(dimension.U, unit, job, dimension.u)}`}
        {unit !== 'mm' && ` ${shownUnit}`}
      </td>
      {/* biome-ignore lint/a11y/noRedundantRoles: see ReadingsTable */}
      <td role="cell" class="state">
        {aside?.mark ?? <StateMark state={state} />} {aside?.word ? `${aside.word}, ` : ''}
        {state === 'few' ? `${texts.length} of ${facts.times}` : stateWords[state]}
      </td>
    </tr>
  );
}

/** In shares of the sheet's width, which `cqw` are hundredths of; the look does the rest. */
const placed = ({ sheet, field: [left, top, width, height] }: FieldPlace) => ({
  '--left': `${(100 * left) / sheet}cqw`,
  '--top': `${(100 * top) / sheet}cqw`,
  '--width': `${(100 * width) / sheet}cqw`,
  '--height': `${(100 * height) / sheet}cqw`,
});

/** Puts the draft into the field at once: callipers with a cable type the next number before a redraw. Marked, so that the
 *  next number replaces what is there. */
function showDraft(input: HTMLInputElement, desk: ReadingDesk): void {
  input.value = desk.draft.peek()?.text ?? '';
  input.select();
}

function onKey(event: TargetedKeyboardEvent<HTMLInputElement>, desk: ReadingDesk): void {
  if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
  const input = event.currentTarget;
  switch (event.key) {
    case 'Enter': {
      const next = desk.enter();
      if (next === null) showDraft(input, desk);
      else focusReading(next);
      break;
    }
    case 'ArrowUp':
    case 'ArrowDown':
      desk.step(event.key === 'ArrowUp' ? -1 : 1);
      showDraft(input, desk);
      break;
    case 'Backspace': {
      // From an empty field back into the number before it.
      const { text, slot } = desk.draft.peek() ?? { text: '', slot: 0 };
      if (text !== '' || slot === 0) return;
      desk.step(-1);
      showDraft(input, desk);
      break;
    }
    case 'Escape':
      desk.giveUp();
      showDraft(input, desk);
      break;
    default:
      return;
  }
  event.preventDefault();
}
