import { formatNumber } from '../../../src/units/index.ts';
import { NumberField } from '../measure/NumberField.tsx';
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
  const current = desk.typing.draft.value?.id ?? desk.row.value?.feature.id;
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
  const draft = desk.typing.draft.value?.id === id ? desk.typing.draft.value : null;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return (
    <li class={`coupon-field ${state}${draft ? ' current' : ''}`} style={place}>
      <label for={couponFieldId(id)}>
        <span class="ordinal">{number}</span> <span class="name">{reading.name}</span>
      </label>
      <NumberField
        typing={desk.typing}
        id={id}
        fieldId={couponFieldId(id)}
        unit={desk.unit}
        times={times}
        describedBy="coupon-tip coupon-doubt"
        refused={state === 'refused'}
        shown={values.length > 0 ? formatNumber(mean) : (texts.at(-1) ?? '')}
        goTo={focusFeature}
        // Readings of a coupon are in no job, so what is taken back here is theirs.
        onUndo={(way) => {
          const about = way === 'undo' ? desk.takeBack() : null;
          if (about !== null) focusFeature(about);
        }}
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
