import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Aside } from './aside.ts';
import { DrawingLines } from './DrawingLines.tsx';
import { FindingBalloons } from './FindingBalloons.tsx';
import { paperFor } from './paperFor.ts';
import { ReadingsTable } from './ReadingsTable.tsx';
import type { ReadingDesk } from './readingDesk.ts';

/** Narrower than on any phone, px: a sheet that is only being unrolled, or rolled up. */
const UNROLLED = 200;

/** The drawing that is the form. Its readings are one table throughout; on the drawing the fields of that table stand on
 *  their dimension lines, and F2 shows it plain. `waiting` is shown while there is nothing to read yet. */
export function FormSheet({
  desk,
  waiting,
  aside,
  balloons = false,
}: {
  readonly desk: ReadingDesk;
  readonly waiting: ComponentChildren;
  readonly aside?: Aside | undefined;
  /** Shows findings where they are on the drawing. */
  readonly balloons?: boolean;
}) {
  const drawing = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = drawing.current;
    if (!element) return;
    const touch = matchMedia('(pointer: coarse)');
    const lay = () => {
      const width = element.clientWidth;
      if (width >= UNROLLED) desk.lay(paperFor(width, touch.matches));
    };
    const watch = new ResizeObserver(lay);
    watch.observe(element);
    touch.addEventListener('change', lay);
    return () => {
      watch.disconnect();
      touch.removeEventListener('change', lay);
    };
  }, [desk]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'F2' || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      desk.asTable.value = !desk.asTable.peek();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [desk]);

  const { asTable, form } = desk;
  // A new drawing may have moved the field that has the cursor out of sight.
  useEffect(() => {
    const active = document.activeElement;
    if (form.value && drawing.current?.contains(active)) active?.scrollIntoView({ block: 'nearest' });
  }, [form.value]);
  const drawn = form.value !== null && !asTable.value;
  return (
    <>
      <div class="readings-head">
        <p class="unit-note">lengths in {desk.unit === 'in' ? 'inches' : 'mm'}</p>
        <button
          type="button"
          class="table-switch"
          aria-pressed={asTable.value}
          aria-keyshortcuts="F2"
          onClick={() => {
            asTable.value = !asTable.value;
          }}
        >
          plain table <kbd>F2</kbd>
        </button>
      </div>
      {desk.source.facts.value === null && <p class="waiting">{waiting}</p>}
      <div class={`form-sheet${drawn ? ' drawn' : ''}`} ref={drawing}>
        {drawn && <DrawingLines desk={desk} />}
        <ReadingsTable desk={desk} drawn={drawn} aside={aside} />
        {drawn && balloons && <FindingBalloons views={form.value!.views} size={form.value!.size} />}
      </div>
    </>
  );
}
