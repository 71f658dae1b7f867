import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { sentence } from '../../../src/output/words/index.ts';
import { capital } from './capital.ts';
import { figure, rangeShown, unitShown } from './figures.ts';
import { JawPicture } from './JawPicture.tsx';
import { NumbersTaken } from './NumbersTaken.tsx';
import type { ReadingDesk, Row } from './readingDesk.ts';
import { SpreadBar } from './SpreadBar.tsx';
import { useAboveKeyboard } from './useAboveKeyboard.ts';

/** The reading at hand, large enough for arm's length: what is understood of the text, which jaws go where, the numbers so
 *  far, and what there is to say about them. On a phone it is pinned above the keyboard while one types. */
export function CurrentReading({
  desk,
  children,
}: {
  readonly desk: ReadingDesk;
  /** What the reading should be; the range it is taken from where nothing else is known. */
  readonly children?: ComponentChildren;
}) {
  const panel = useRef<HTMLElement>(null);
  const row = desk.row.value;
  const typing = desk.typing.draft.value !== null;
  useAboveKeyboard(panel, typing);
  if (!row) return null;
  const { facts, number } = row;
  return (
    <section
      class={`current-reading${typing ? ' typing' : ''}`}
      aria-label="Reading at hand"
      ref={panel}
      // Its buttons work on the number in the field, which must keep the cursor.
      onMouseDown={(event) => typing && event.preventDefault()}
    >
      <JawPicture jaw={facts.jaw} round={facts.round} />
      <h2>
        <span class="ordinal">{number}</span> {capital(facts.name)}
      </h2>
      <p id="reading-tip" class="tip">
        {sentence(facts.tip)}{' '}
        {children ?? <span class="range">{rangeShown(facts.from, facts.to, facts.unit, desk.unit)}</span>}
      </p>
      <Readout desk={desk} row={row} />
      <div class="taken">
        <NumbersTaken desk={desk} row={row} />
      </div>
      <Doubt desk={desk} row={row} />
      <p class="unseen" role="status">
        {desk.typing.said.value}
      </p>
    </section>
  );
}

/** What the text reads, or else what all numbers come to. */
function Readout({ desk, row }: { readonly desk: ReadingDesk; readonly row: Row }) {
  const { dimension, facts, sizes } = row;
  const { unit } = facts;
  const typed = desk.typedValue();
  const big =
    typed !== null
      ? figure(typed, unit, desk.unit, 0.015)
      : dimension
        ? figure(dimension.value, unit, desk.unit, dimension.u)
        : '-';
  return (
    <div class="readout">
      <output class={typed === null ? 'big' : 'big typed'} aria-live="off">
        {big} <span class="unit">{unitShown(unit, desk.unit)}</span>
      </output>
      {dimension && (
        <p class="small">
          {typed !== null && `mean ${figure(dimension.value, unit, desk.unit, dimension.u)} `}±{' '}
          {figure(dimension.U, unit, desk.unit, dimension.u)}
          {dimension.n > 1 && ` of ${dimension.n}`}
        </p>
      )}
      {dimension && sizes.length > 0 && <SpreadBar sizes={sizes} dimension={dimension} />}
    </div>
  );
}

/** What is wrong with the text in the field, or doubtful about the numbers. */
function Doubt({ desk, row }: { readonly desk: ReadingDesk; readonly row: Row }) {
  const draft = desk.typing.draft.value;
  const refused = draft?.rested && draft.text.trim() !== '' ? desk.typing.judged(draft.text) : null;
  const unusable = row.refusals.flatMap((why, k) => (why === null ? [] : [`"${row.texts[k]}" ${why}`]));
  // The name stands above.
  const prefix = `${row.facts.name}: `;
  const all = row.dimension?.remarks ?? [];
  // A likely nominal size is no news while something is doubtful, or cannot be read.
  const grave = all.filter(({ kind }) => kind !== 'nominal');
  const remarks = grave.length > 0 || refused !== null ? grave : all;
  return (
    <ul id="reading-doubt" class="doubts" aria-live="polite">
      {refused !== null && <li class="refused">{sentence(`"${draft?.text.trim()}" ${refused}`)}</li>}
      {unusable.map((words) => (
        <li key={words} class="refused">
          {sentence(words)}
        </li>
      ))}
      {remarks.map(({ kind, sentence: words }) => (
        <li key={words} class={kind === 'nominal' ? 'news' : 'doubtful'}>
          {sentence(words.startsWith(prefix) ? words.slice(prefix.length) : words)}
        </li>
      ))}
    </ul>
  );
}
