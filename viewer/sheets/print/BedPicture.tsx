import type { BedFacts } from '../../spine/tasks/plate.ts';
import { type BedWindow, closeWindow, outlineData } from './bedLines.ts';

/** The bed from above as the 3MF lays it, and beside it the parts larger where they are small on it. */
export function BedPicture({ bed }: { readonly bed: BedFacts }) {
  const { x, y } = bed.bed;
  const close = closeWindow(bed);
  const count = bed.standing.length;
  return (
    <div class={`bed-pictures${close ? ' two' : ''}`}>
      <figure>
        <BedSvg
          bed={bed}
          window={[0, 0, x, y]}
          frame={close}
          name={`${count} ${count === 1 ? 'part' : 'parts'} on a bed of ${x} by ${y} mm, from above`}
        />
        <figcaption>
          bed {x} × {y}, front below
        </figcaption>
      </figure>
      {close && (
        <figure>
          <BedSvg bed={bed} window={close} frame={null} name="The same, larger" numbered />
          <figcaption>larger</figcaption>
        </figure>
      )}
    </div>
  );
}

interface BedSvgProps {
  readonly bed: BedFacts;
  readonly window: BedWindow;
  /** What the other picture shows larger. */
  readonly frame: BedWindow | null;
  readonly name: string;
  readonly numbered?: boolean;
}

function BedSvg({ bed, window, frame, name, numbered = false }: BedSvgProps) {
  const [left, front, wide, deep] = window;
  const rim = 0.015 * wide;
  const down = (y: number) => front + deep - y;
  const { x, y } = bed.bed;
  const { spacing } = bed;
  const onlyOne = bed.kinds.length === 1;
  return (
    <svg
      class="bed"
      viewBox={`${-rim} ${-rim} ${wide + 2 * rim} ${deep + 2 * rim}`}
      role="img"
      aria-label={name}
    >
      {!numbered && (
        <>
          <rect class="edge" x={0} y={0} width={x} height={y} />
          <rect class="margin" x={spacing} y={spacing} width={x - 2 * spacing} height={y - 2 * spacing} />
        </>
      )}
      {bed.standing.map(({ contours, number, at, long }, k) => (
        <g key={k}>
          <path class="on-bed" d={outlineData(contours, window)} />
          {(numbered || frame === null) && !onlyOne && (
            <text
              x={at[0] - left}
              y={down(at[1])}
              font-size={Math.min(long * 0.7, wide / 18)}
              dominant-baseline="central"
              text-anchor="middle"
            >
              {number}
            </text>
          )}
        </g>
      ))}
      {frame && (
        <rect class="frame" x={frame[0]} y={down(frame[1] + frame[3])} width={frame[2]} height={frame[3]} />
      )}
      {numbered && <ScaleBar wide={wide} deep={deep} />}
    </svg>
  );
}

/** Lengths that a bar of scale may have, mm. */
const BARS = [1, 2, 5, 10, 20, 50, 100] as const;

function ScaleBar({ wide, deep }: { readonly wide: number; readonly deep: number }) {
  const long = BARS.findLast((length) => length <= wide / 3) ?? 1;
  const [x, y, tick] = [wide * 0.03, deep * 0.97, wide * 0.012];
  return (
    <g class="scale-bar">
      <path d={`M${x} ${y - tick}V${y}H${x + long}V${y - tick}`} />
      <text x={x + long + tick} y={y} font-size={wide / 15}>
        {long} mm
      </text>
    </g>
  );
}
