import { useEffect } from 'preact/hooks';
import { useBench } from '../../bench/bench.ts';
import { BuiltStrip } from './BuiltStrip.tsx';
import { CallipersStrip } from './CallipersStrip.tsx';
import { CurrentReading } from './CurrentReading.tsx';
import { FormSheet } from './FormSheet.tsx';
import { focusReading } from './focusReading.ts';
import './measure.css';
import { measureDesk } from './measureDesk.ts';
import { ScrewStrip } from './ScrewStrip.tsx';

/** Sheet 1: what to read of the machine. */
export function MeasureSheet() {
  const bench = useBench();
  const desk = measureDesk(bench);
  const { trouble } = desk;
  // Led here by the verdict or a doubt, as soon as the field is there.
  const led = bench.reading.value;
  const there = desk.rows.value.some(({ facts: { id } }) => id === led);
  useEffect(() => {
    if (led === null || !there) return;
    focusReading(led);
    bench.reading.value = null;
  }, [bench, led, there]);
  return (
    <div class="measure">
      <div class="strips">
        <BuiltStrip desk={desk} />
        <CallipersStrip />
        <ScrewStrip />
      </div>
      <FormSheet
        desk={desk}
        balloons
        waiting={
          trouble.value[0]
            ? (trouble.value[0].reason ?? trouble.value[0].allowed)
            : 'laying out the sheet ...'
        }
      />
      <CurrentReading desk={desk} />
    </div>
  );
}
