import type { Aside } from './aside.ts';
import { capital } from './capital.ts';
import { figure, unitShown } from './figures.ts';
import { fieldId, focusReading } from './focusReading.ts';
import { NumberField } from './NumberField.tsx';
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
  const draft = desk.typing.draft.value?.id === id ? desk.typing.draft.value : null;
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
        <NumberField
          typing={desk.typing}
          id={id}
          fieldId={fieldId(id)}
          unit={job}
          times={facts.times}
          label={`${number} ${name}${shownUnit ? `, ${shownUnit}` : ''}`}
          describedBy="reading-doubt reading-tip"
          refused={state === 'refused'}
          shown={mean ?? texts.at(-1) ?? ''}
          hint={aside?.hint ?? ''}
          goTo={focusReading}
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
