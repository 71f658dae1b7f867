import { useSignal, useSignalEffect } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { formatNumber } from '../../src/units/index.ts';
import { colourText, type GapInks, gapColour, scaleEnds } from './gapColour.ts';
import { type GapUnder, gapUnder } from './gapUnder.ts';
import type { SolidState } from './solidState.ts';
import { inksAround } from './stageUpkeep.ts';

/** Steps of the scale, mm out of what is wanted, from too tight to too loose. */
const tight = [0.2, 0.15, 0.1, 0.05];
const loose = [0.1, 0.2, 0.3, 0.4];

/** What the colours mean, in mm, and the gap under the pointer. */
export function GapScale({ state }: { readonly state: SolidState }) {
  const own = useRef<HTMLDivElement>(null);
  const inks = useSignal<GapInks | null>(null);
  const under = useSignal<GapUnder | null>(null);
  useEffect(() => {
    const around = inksAround(own.current!);
    const stop = around.inks.subscribe((now) => {
      inks.value = now;
    });
    return () => {
      stop();
      around.stop();
    };
  }, [inks]);
  useSignalEffect(() => {
    const point = state.pointer.value;
    under.value = point && gapUnder(state, point);
  });
  const fill = (out: number): string => (inks.value ? colourText(gapColour(out, inks.value)) : 'none');
  const steps = [...tight.map((out) => -out), 0, ...loose];
  return (
    <div class="gap-scale" ref={own}>
      <svg viewBox="0 0 360 44" role="img" aria-label={scaleWords}>
        {steps.map((out, k) => (
          <rect
            key={out}
            x={wide(k)}
            y={14}
            width={out === 0 ? 72 : 36}
            height={12}
            style={{ fill: fill(out) }}
          />
        ))}
        {labels.map(([x, out, anchor]) => (
          <text key={x} x={x} y={40} text-anchor={anchor}>
            {formatNumber(out)}
          </text>
        ))}
        <text x={0} y={9}>
          too tight by, mm
        </text>
        <text x={180} y={9} text-anchor="middle">
          as wanted
        </text>
        <text x={360} y={9} text-anchor="end">
          too loose by, mm
        </text>
      </svg>
      <p class="under">
        {under.value
          ? `${under.value.name}: ${under.value.words}`
          : state.part.value?.manner === 'gaps'
            ? restWords(state)
            : 'the print is being worked out ...'}
      </p>
    </div>
  );
}

function restWords(state: SolidState): string {
  const { id } = state.play.value;
  if (id !== '' && id !== 'motion') return 'gaps are told of the part in its place';
  return `a side, as printed, ${id === '' ? 'at rest' : 'in this position'}; point at a surface to read its gap`;
}

/** Where the scale bears which number, and how it stands there. */
const labels = [
  [0, 0.2, 'start'],
  [72, 0.1, 'middle'],
  [144, 0, 'middle'],
  [216, 0, 'middle'],
  [288, 0.2, 'middle'],
  [360, 0.4, 'end'],
] as const;

const wide = (k: number): number => (k <= 4 ? 36 * k : 36 * (k + 1));

const scaleWords = `Colours of the gaps: vermilion where too tight, by ${scaleEnds.tight} mm a side and more at its darkest; pale as wanted; blue where too loose, by ${scaleEnds.loose} mm and more at its darkest. Grey meets nothing.`;
