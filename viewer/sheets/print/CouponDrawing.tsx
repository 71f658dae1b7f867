import { formatNumber } from '../../../src/units/index.ts';
import { undoKey } from '../../start/undoKey.ts';
import { StateMark } from '../measure/StateMark.tsx';
import type { CouponDesk } from './couponDesk.ts';
import { couponFieldId, focusFeature } from './couponFocus.ts';
import type { CouponRow } from './couponRows.ts';

/** The coupon as a drawing whose numbers are typed where they stand; a list of the same fields under the drawing where it is
 *  too narrow for them. */
export function CouponDrawing({ desk }: { readonly desk: CouponDesk }) {
  const facts = desk.facts.value;
  if (!facts) return null;
  const { sheet } = facts;
  const [wide, high] = sheet.size;
  const rows = desk.rows.value;
  const current = desk.draft.value?.id ?? desk.row.value?.feature.id;
  return (
    <div class="coupon-sheet">
      <svg class="coupon-lines" viewBox={`0 0 ${wide} ${high}`} aria-hidden="true">
        {sheet.paths.map(({ kind, d }) => (
          <path key={kind} class={kind} d={d} fill-rule="evenodd" />
        ))}
        {sheet.titles.map(({ words, at: [x, y] }) => (
          <text key={words} x={x} y={y}>
            {words}
          </text>
        ))}
        {sheet.fields.map(({ feature, number, lines, arrows, touches, field: [left, top, w, h] }, k) => (
          <g
            key={feature}
            class={`leads ${rows[k]?.state ?? 'missing'}${feature === current ? ' current' : ''}`}
          >
            <path class="run" d={lines} />
            <path class="arrows" d={arrows} />
            {feature === current &&
              touches.map(([x, y]) => <circle key={`${x} ${y}`} class="touch" cx={x} cy={y} r="1" />)}
            <g class="flag">
              <circle cx={left + w / 2} cy={top + h / 2} r="4.2" />
              <text x={left + w / 2} y={top + h / 2} dominant-baseline="central">
                {number}
              </text>
            </g>
          </g>
        ))}
      </svg>
      <ol class="coupon-fields" aria-label="Readings of the coupon">
        {rows.map((row, k) => (
          <Field
            key={row.feature.id}
            desk={desk}
            row={row}
            place={placed(sheet.fields[k]!.field, sheet.size)}
          />
        ))}
      </ol>
    </div>
  );
}

interface FieldProps {
  readonly desk: CouponDesk;
  readonly row: CouponRow;
  readonly place: Readonly<Record<string, string>>;
}

function Field({ desk, row: { feature, texts, values, state }, place }: FieldProps) {
  const { id, number, reading, times } = feature;
  const draft = desk.draft.value?.id === id ? desk.draft.value : null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const shown = values.length > 0 ? formatNumber(mean) : (texts.at(-1) ?? '');
  return (
    <li class={`coupon-field ${state}${draft ? ' current' : ''}`} style={place}>
      <label for={couponFieldId(id)}>
        <span class="ordinal">{number}</span> <span class="name">{reading.name}</span>
      </label>
      <input
        id={couponFieldId(id)}
        type="text"
        inputMode={desk.unit === 'in' ? 'text' : 'decimal'}
        enterKeyHint="next"
        autoComplete="off"
        autoCorrect="off"
        spellcheck={false}
        maxLength={200}
        aria-invalid={
          state === 'refused' || (draft?.rested && desk.judged(draft.text) !== null) ? true : undefined
        }
        aria-describedby={draft ? 'coupon-tip coupon-doubt' : undefined}
        placeholder={draft ? `${draft.slot + 1} of ${Math.max(times, draft.slot + 1)}` : ''}
        value={draft ? draft.text : shown}
        onFocus={({ currentTarget }) => {
          desk.open(id);
          requestAnimationFrame(() => {
            // A digit may have been quicker than the frame, and must not be typed over.
            const now = desk.draft.peek();
            if (now?.id === id && now.text !== '' && now.text === String(now.original))
              currentTarget.select();
          });
        }}
        onBlur={({ currentTarget }) => {
          // Another window has the keyboard for a while; the number is still being typed.
          if (document.activeElement !== currentTarget) desk.leave(id);
        }}
        onInput={({ currentTarget: { value } }) => desk.type(value)}
        onKeyDown={(event) => onKey(event, desk)}
      />
      <StateMark state={state} />
    </li>
  );
}

/** In shares of the sheet's width, which `cqw` are hundredths of. */
const placed = ([left, top, w, h]: readonly number[], [wide]: readonly [number, number]) => ({
  '--left': `${(100 * left!) / wide}cqw`,
  '--top': `${(100 * top!) / wide}cqw`,
  '--width': `${(100 * w!) / wide}cqw`,
  '--height': `${(100 * h!) / wide}cqw`,
});

function onKey(event: KeyboardEvent, desk: CouponDesk): void {
  const way = undoKey(event);
  if (way !== null) {
    // Readings of a coupon are in no job, so what is taken back here is theirs.
    event.preventDefault();
    const feature = way === 'undo' ? desk.takeBack() : null;
    if (feature !== null) focusFeature(feature);
    return;
  }
  if (event.isComposing || event.ctrlKey || event.metaKey || event.altKey) return;
  switch (event.key) {
    case 'Enter': {
      const next = desk.enter();
      if (next !== null) focusFeature(next);
      break;
    }
    case 'ArrowUp':
      desk.step(-1);
      break;
    case 'ArrowDown':
      desk.step(1);
      break;
    case 'Escape':
      desk.giveUp();
      break;
    case 'Backspace':
      // From an empty field back into the number before it.
      if (desk.draft.peek()?.text !== '') return;
      desk.step(-1);
      break;
    default:
      return;
  }
  event.preventDefault();
}
