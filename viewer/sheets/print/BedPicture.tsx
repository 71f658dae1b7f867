import { formatNumber } from '../../../src/units/index.ts';
import type { BedFacts } from '../../spine/tasks/plate.ts';
import { type BedWindow, closeWindow, outlineData } from './bedLines.ts';

/** The bed from above as the 3MF lays it, and beside it the parts larger where they are small on it. */
export function BedPicture({ bed, stale }: { readonly bed: BedFacts; readonly stale: boolean }) {
  const { x, y } = bed.bed;
  const close = closeWindow(bed);
  const count = bed.standing.length;
  return (
    <div class={`bed-pictures${close ? ' two' : ''}${bed.kinds.length > 1 ? ' several' : ''}`}>
      <figure>
        <BedSvg
          bed={bed}
          window={[0, 0, x, y]}
          frame={close}
          name={`${count} ${count === 1 ? 'part' : 'parts'} on a bed of ${x} by ${y} mm, from above${named(bed)}`}
        />
        <figcaption>
          bed {x} × {y}, front below{stale ? '; as it was' : ''}
        </figcaption>
      </figure>
      {close && (
        <figure>
          <BedSvg bed={bed} window={close} frame={null} name="The same, larger" numbered />
          <figcaption>larger</figcaption>
        </figure>
      )}
      <Kinds bed={bed} />
    </div>
  );
}

/** Which parts these are, by their numbers, where they are of more than one kind. */
function Kinds({ bed: { kinds } }: { readonly bed: BedFacts }) {
  if (kinds.length < 2) return null;
  return (
    <ol class="kinds" aria-label="Parts on the bed">
      {kinds.map(({ name, count, height }, k) => (
        <li key={`${k} ${name}`}>
          {name}, {count} off, {formatNumber(height)} mm high
        </li>
      ))}
    </ol>
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
  // The bar of scale has a strip of its own, so that no part stands on it.
  const below = numbered ? SCALE_STRIP * deep : 0;
  const down = (y: number) => front + deep - y;
  const { x, y } = bed.bed;
  const { spacing } = bed;
  const onlyOne = bed.kinds.length === 1;
  return (
    <svg
      class="bed"
      viewBox={`${-rim} ${-rim} ${wide + 2 * rim} ${deep + 2 * rim + below}`}
      role="img"
      aria-label={name}
    >
      {!numbered && (
        <>
          <rect class="edge" x={0} y={0} width={x} height={y} />
          <rect class="margin" x={spacing} y={spacing} width={x - 2 * spacing} height={y - 2 * spacing} />
        </>
      )}
      {bed.standing.map(({ contours, number, at, long }, k) => {
        const name = bed.kinds[number - 1]!.name;
        return (
          <g key={k}>
            <path
              class={bed.jobOf[number - 1] === 0 ? 'on-bed' : 'on-bed along'}
              d={outlineData(contours, window)}
            >
              {!onlyOne && <title>{`${number}: ${name}`}</title>}
            </path>
            {(numbered || frame === null) && !onlyOne && (
              <text
                x={at[0] - left}
                y={down(at[1])}
                {...lettering(number, name, long, wide)}
                dominant-baseline="central"
                text-anchor="middle"
              />
            )}
          </g>
        );
      })}
      {frame && (
        <rect class="frame" x={frame[0]} y={down(frame[1] + frame[3])} width={frame[2]} height={frame[3]} />
      )}
      {numbered && <ScaleBar wide={wide} deep={deep} />}
    </svg>
  );
}

/** What is on the bed by name, where it is more than one kind. */
const named = ({ kinds }: BedFacts): string =>
  kinds.length < 2
    ? ''
    : `: ${kinds.map(({ name, count }, k) => `${k + 1}, ${name}, ${count} off`).join('; ')}`;

/** Smallest letters that are read on a phone, as a share of the picture's width; how wide a letter is of its height. */
const SMALLEST = 1 / 26;
const LETTER = 0.6;

/** What stands in a part with `long` mm of room: its number, and its name behind it where there is room for both. */
function lettering(number: number, name: string, long: number, wide: number) {
  const whole = `${number} ${name}`;
  const size = (0.9 * long) / (LETTER * whole.length);
  if (size >= wide * SMALLEST) return { 'font-size': Math.min(size, wide / 15), children: whole };
  return { 'font-size': Math.min(long * 0.7, wide / 15), children: String(number) };
}

/** Room for the bar of scale, as a share of the picture's depth. */
const SCALE_STRIP = 0.09;
/** Lengths that a bar of scale may have, mm. */
const BARS = [1, 2, 5, 10, 20, 50, 100] as const;

function ScaleBar({ wide, deep }: { readonly wide: number; readonly deep: number }) {
  const long = BARS.findLast((length) => length <= wide / 3) ?? 1;
  const [x, y, tick] = [wide * 0.03, deep * (1 + 0.7 * SCALE_STRIP), wide * 0.012];
  return (
    <g class="scale-bar">
      <path d={`M${x} ${y - tick}V${y}H${x + long}V${y - tick}`} />
      <text x={x + long + tick} y={y} font-size={wide / 15}>
        {long} mm
      </text>
    </g>
  );
}
