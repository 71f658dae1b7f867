import { useRef } from 'preact/hooks';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { heldBy, steps } from './layAlong.ts';
import type { Draft, RefitDesk } from './refitDesk.ts';
import { lengthWords } from './words.ts';

interface PullOptions {
  readonly desk: RefitDesk;
  readonly sheet: RefitSheet;
  /** Which stretch. */
  readonly index: number;
  /** What the handle is called by whoever cannot see it. */
  readonly said: string;
  /** How much longer the stretch becomes when the handle is drawn so many pixels to the right and down, mm. */
  readonly mmOf: (right: number, down: number) => number;
  /** The handle moves up and down rather than across. */
  readonly isUpright?: boolean;
}

/** Keys rest for this long before the part is worked out, ms. */
const SETTLED = 450;

/** A handle that makes a stretch longer or shorter: by mouse, touch or pen, or by the arrow keys. `props` make a slider of
 *  whatever element is drawn as the handle; one pull is one step that can be taken back. */
export function usePull({ desk, sheet, index, said, mmOf, isUpright = false }: PullOptions) {
  const span = sheet.spans[index]!;
  const start = useRef<{
    readonly id: number;
    readonly x: number;
    readonly y: number;
    readonly by: number;
  } | null>(null);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  const isOf = (draft: Draft | null): draft is Draft =>
    draft !== null && (draft.span === index || draft.span === span.partner);
  const draft = desk.draft.value;
  const by = isOf(draft) ? draft.by : 0;
  const now = span.length + by;
  // Several keys may come before the picture is drawn again.
  const byNow = (): number => {
    const newest = desk.draft.peek();
    return isOf(newest) ? newest.by : 0;
  };
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
  const drop = (): void => {
    clearTimeout(rest.current);
    start.current = null;
    if (!desk.busy.peek()) desk.draft.value = null;
  };
  const press = (event: PointerEvent): void => {
    if (event.button !== 0 || start.current || desk.busy.peek()) return;
    clearTimeout(rest.current);
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    start.current = { id: event.pointerId, x: event.clientX, y: event.clientY, by: byNow() };
    desk.at.value = index;
  };
  const move = ({ pointerId, clientX, clientY }: PointerEvent): void => {
    const { current } = start;
    if (current?.id === pointerId) hold(current.by + mmOf(clientX - current.x, clientY - current.y));
  };
  const lift = ({ pointerId }: PointerEvent): void => {
    if (start.current?.id !== pointerId) return;
    start.current = null;
    settle();
  };
  const cancel = ({ pointerId }: PointerEvent): void => {
    if (start.current?.id === pointerId) drop();
  };
  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === 'Escape') drop();
    if (event.key === 'Enter') settle();
    const to = byKey(event.key, byNow(), event.shiftKey, span);
    if (to === undefined) return;
    event.preventDefault();
    hold(to);
    clearTimeout(rest.current);
    rest.current = setTimeout(settle, SETTLED);
  };
  const props = {
    role: 'slider',
    tabIndex: 0,
    'aria-label': said,
    'aria-orientation': isUpright ? 'vertical' : 'horizontal',
    'aria-valuemin': Number((span.length - span.available).toFixed(2)),
    'aria-valuemax': Number(Math.max(now, 4 * span.length).toFixed(2)),
    'aria-valuenow': Number(now.toFixed(2)),
    'aria-valuetext': lengthWords(now, span.was),
    'aria-disabled': desk.busy.value,
    onPointerDown: press,
    onPointerMove: move,
    onPointerUp: lift,
    onPointerCancel: cancel,
    onKeyDown: key,
    onFocus: () => {
      desk.at.value = index;
    },
    onBlur: settle,
  } as const;
  return { by, now, isHeld: isOf(draft), props };
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
