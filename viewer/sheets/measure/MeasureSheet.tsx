import { useEffect, useRef } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';
import { BuiltStrip } from './BuiltStrip.tsx';
import { CallipersStrip } from './CallipersStrip.tsx';
import { CurrentReading } from './CurrentReading.tsx';
import { DrawingLines } from './DrawingLines.tsx';
import { focusReading } from './focusReading.ts';
import './measure.css';
import { measureDesk } from './measureDesk.ts';
import { paperFor } from './paperFor.ts';
import { ReadingsTable } from './ReadingsTable.tsx';

/** Sheet 1: the drawing is the form. Its readings are one table throughout; on the drawing the fields of that table stand
 *  on their dimension lines, and F2 shows it plain. */
export function MeasureSheet() {
  const bench = useBench();
  const desk = measureDesk(bench);
  const drawing = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = drawing.current;
    if (!element) return;
    const touch = matchMedia('(pointer: coarse)');
    const lay = () => desk.lay(paperFor(element.clientWidth, touch.matches));
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

  const { asTable, form, facts, trouble } = desk;
  // A new drawing may have moved the field that has the cursor out of sight.
  useEffect(() => {
    const active = document.activeElement;
    if (form.value && drawing.current?.contains(active)) active?.scrollIntoView({ block: 'nearest' });
  }, [form.value]);
  // Led here by the verdict or a doubt, as soon as the field is there.
  const led = bench.reading.value;
  const there = desk.rows.value.some(({ facts: { id } }) => id === led);
  useEffect(() => {
    if (led === null || !there) return;
    focusReading(led);
    bench.reading.value = null;
  }, [bench, led, there]);
  const drawn = form.value !== null && !asTable.value;
  return (
    <div class="measure">
      <div class="strips">
        <BuiltStrip desk={desk} />
        <CallipersStrip />
      </div>
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
      {facts.value === null && (
        <p class="waiting">
          {trouble.value[0]
            ? `${trouble.value[0].reason ?? trouble.value[0].allowed}`
            : 'laying out the sheet ...'}
        </p>
      )}
      <div class={`form-sheet${drawn ? ' drawn' : ''}`} ref={drawing}>
        {drawn && <DrawingLines desk={desk} />}
        <ReadingsTable desk={desk} drawn={drawn} />
      </div>
      <CurrentReading desk={desk} />
    </div>
  );
}
