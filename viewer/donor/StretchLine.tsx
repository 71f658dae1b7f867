import { useRef } from 'preact/hooks';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { formatNumber } from '../../src/units/index.ts';
import { heldBy, steps } from './layAlong.ts';
import type { RefitDesk } from './refitDesk.ts';
import { alongWords } from './words.ts';

interface StretchLineProps {
  readonly desk: RefitDesk;
  readonly sheet: RefitSheet;
  readonly index: number;
  readonly name: string;
  /** Ends of the stretch and pixels a mm. */
  readonly left: number;
  readonly right: number;
  readonly scale: number;
  /** Where it lies. */
  readonly y: number;
}

/** Keys rest for this long before the part is worked out, ms. */
const SETTLED = 450;

/** Dimension line of a stretch with its length, and a handle at its end to draw, or to move with the arrow keys. */
export function StretchLine({ desk, sheet, index, name, left, right, scale, y }: StretchLineProps) {
  const span = sheet.spans[index]!;
  const { axis } = sheet.axes[sheet.shown]!;
  const start = useRef<{ readonly x: number; readonly by: number } | null>(null);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  const draft = desk.draft.value;
  const own = draft !== null && (draft.span === index || draft.span === span.partner);
  const by = own ? draft.by : 0;
  const now = span.length + by;
  const hold = (wanted: number): void => {
    if (!desk.busy.peek()) desk.draft.value = { span: index, by: heldBy(wanted, span.available) };
  };
  const settle = (): void => {
    clearTimeout(rest.current);
    const wanted = desk.draft.peek();
    if (wanted?.span !== index || desk.busy.peek()) return;
    if (wanted.by === 0) desk.draft.value = null;
    else desk.stretch(index, wanted.by);
  };
  const press = (event: PointerEvent): void => {
    if (event.button !== 0 || desk.busy.peek()) return;
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    start.current = { x: event.clientX, by };
  };
  const move = ({ clientX }: PointerEvent): void => {
    const { current } = start;
    if (current) hold(current.by + (clientX - current.x) / scale);
  };
  const lift = (): void => {
    if (!start.current) return;
    start.current = null;
    settle();
  };
  const drop = (): void => {
    start.current = null;
    desk.draft.value = null;
  };
  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === 'Escape') {
      clearTimeout(rest.current);
      drop();
      return;
    }
    if (event.key === 'Enter') {
      settle();
      return;
    }
    const to = byKey(event.key, by, event.shiftKey, span);
    if (to === undefined) return;
    event.preventDefault();
    hold(to);
    clearTimeout(rest.current);
    rest.current = setTimeout(settle, SETTLED);
  };
  const arrow = 7;
  const wide = right - left > 3 * arrow;
  const was = Math.abs(now - span.was) > 0.005 ? ` (was ${formatNumber(span.was)})` : '';
  return (
    <g class={`stretch-line${own ? ' held' : ''}`}>
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
      <g
        class="grip"
        role="slider"
        tabIndex={0}
        aria-label={`Stretch ${name} ${alongWords(axis)}`}
        aria-valuemin={Number((span.length - span.available).toFixed(2))}
        aria-valuemax={Number((4 * span.length).toFixed(2))}
        aria-valuenow={Number(now.toFixed(2))}
        aria-valuetext={`${formatNumber(now)} mm${was}`}
        aria-disabled={desk.busy.value}
        onPointerDown={press}
        onPointerMove={move}
        onPointerUp={lift}
        onPointerCancel={drop}
        onKeyDown={key}
        onBlur={settle}
      >
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

/** What a key makes of a change; undefined for keys that do nothing. */
function byKey(
  name: string,
  by: number,
  shift: boolean,
  { length, was, available }: { readonly length: number; readonly was: number; readonly available: number },
): number | undefined {
  const step = shift ? steps.coarse : steps.fine;
  switch (name) {
    case 'ArrowRight':
    case 'ArrowUp':
      return by + step;
    case 'ArrowLeft':
    case 'ArrowDown':
      return by - step;
    case 'PageUp':
      return by + steps.coarse;
    case 'PageDown':
      return by - steps.coarse;
    case 'Home':
      return was - length;
    case 'End':
      return -available;
    default:
      return undefined;
  }
}
