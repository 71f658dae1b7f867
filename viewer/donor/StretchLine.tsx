import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { formatNumber } from '../../src/units/index.ts';
import { pulledEnd } from './pulledEnd.ts';
import type { RefitDesk } from './refitDesk.ts';
import { usePull } from './usePull.ts';
import { alongWords } from './words.ts';

interface StretchLineProps {
  readonly desk: RefitDesk;
  readonly sheet: RefitSheet;
  readonly index: number;
  readonly name: string;
  /** Ends of the stretch. */
  readonly left: number;
  readonly right: number;
  /** Pixels a mm by which its handle is pulled. */
  readonly scale: number;
  /** Where it lies. */
  readonly y: number;
}

/** Dimension line of a stretch with its length, and a handle at its end to draw, or to move with the arrow keys. */
export function StretchLine({ desk, sheet, index, name, left, right, scale, y }: StretchLineProps) {
  const { axis } = sheet.axes[sheet.shown]!;
  // Here the low end of the part stays, so the high one of two that change together moves by both.
  const { gain } = pulledEnd(sheet, index);
  const { now, isHeld, props } = usePull({
    ...{ desk, sheet, index },
    said: `Stretch ${name} ${alongWords(axis)}`,
    mmOf: (wide) => wide / (scale * gain),
  });
  const arrow = 7;
  const wide = right - left > 3 * arrow;
  return (
    <g class={`stretch-line${isHeld ? ' held' : ''}`}>
      <path class="thin" d={wide ? `M${left} ${y}H${right}` : `M${left - 12} ${y}H${right}`} />
      <path
        class="arrow"
        d={
          wide
            ? `M${left} ${y}l${arrow} -2.2v4.4zM${right} ${y}l${-arrow} -2.2v4.4z`
            : `M${left} ${y}l${-arrow} -2.2v4.4z`
        }
      />
      <text class="figure" x={right + 34} y={y + 6}>
        {formatNumber(now)}
      </text>
      <g class="grip" {...props}>
        <rect class="reach" x={right - 8} y={y - 22} width={44} height={44} />
        <path class="tab" d={`M${right} ${y}l7 -11h18v22h-18z`} />
        <path
          class="ribs"
          d={`M${right + 12} ${y - 5}v10M${right + 16} ${y - 5}v10M${right + 20} ${y - 5}v10`}
        />
      </g>
    </g>
  );
}
