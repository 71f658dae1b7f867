import type { Vec2 } from '../../src/solid/vector.ts';
import { cameraAfterKey, panned, turned, zoomed } from './camera.ts';
import type { CameraMover } from './moveCamera.ts';
import type { SolidState } from './solidState.ts';

/** A drag across the picture turns by half a turn. */
const TURN = Math.PI;
/** A notch of the wheel, pixels of scrolling, zooms by this much. */
const WHEEL = 0.0016;

/** Turns, zooms and moves the picture by mouse, touch and pen on `element`: one finger or the left button turns, two fingers
 *  or another button move, pinching and the wheel zoom. Keys: `cameraAfterKey`. Gives back how to let go. */
export function handle(element: HTMLElement, state: SolidState, mover: CameraMover): () => void {
  const down = new Map<number, Vec2>();
  const radius = (): number => Math.max(1, Math.min(...state.size.peek()) / 2 / 1.3);
  const at = (event: PointerEvent | WheelEvent): Vec2 => {
    const { left, top } = element.getBoundingClientRect();
    return [event.clientX - left, event.clientY - top];
  };
  const fromMiddle = ([x, y]: Vec2): Vec2 => {
    const [width, height] = state.size.peek();
    return [(x - width / 2) / radius(), (height / 2 - y) / radius()];
  };

  const press = (event: PointerEvent): void => {
    element.setPointerCapture(event.pointerId);
    down.set(event.pointerId, at(event));
  };
  const move = (event: PointerEvent): void => {
    const before = down.get(event.pointerId);
    state.pointer.value = before ? null : at(event);
    if (!before) return;
    const now = at(event);
    const [dx, dy] = [now[0] - before[0], now[1] - before[1]];
    const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
    down.set(event.pointerId, now);
    if (other) {
      const apart = (p: Vec2): number => Math.max(8, Math.hypot(p[0] - other[0], p[1] - other[1]));
      const middle = fromMiddle([(now[0] + other[0]) / 2, (now[1] + other[1]) / 2]);
      mover.by((camera) => slid(zoomed(camera, apart(now) / apart(before), middle), dx / 2, dy / 2));
    } else if (event.shiftKey || (event.buttons & 6) !== 0) mover.by((camera) => slid(camera, dx, dy));
    else {
      const size = Math.min(...state.size.peek());
      mover.by((camera) => turned(camera, (-dx / size) * TURN, (dy / size) * TURN));
    }
  };
  const slid = (camera: ReturnType<typeof state.camera.peek>, dx: number, dy: number) =>
    panned(camera, [-dx / radius() / camera.zoom, dy / radius() / camera.zoom]);
  const lift = (event: PointerEvent): void => {
    down.delete(event.pointerId);
  };
  const leave = (): void => {
    state.pointer.value = null;
  };
  const wheel = (event: WheelEvent): void => {
    // The page scrolls on where the picture has no use for it: only a wheel on a focused picture, or with Ctrl, zooms.
    if (!event.ctrlKey && document.activeElement !== element) return;
    event.preventDefault();
    const scrolled = event.deltaMode === 0 ? event.deltaY : 30 * event.deltaY;
    mover.by((camera) => zoomed(camera, Math.exp(-WHEEL * scrolled), fromMiddle(at(event))));
  };
  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const camera = cameraAfterKey(state.camera.peek(), event.key, event.shiftKey);
    if (!camera) return;
    event.preventDefault();
    mover.to(camera);
  };
  const menu = (event: Event): void => event.preventDefault();

  element.addEventListener('pointerdown', press);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', lift);
  element.addEventListener('pointercancel', lift);
  element.addEventListener('pointerleave', leave);
  element.addEventListener('wheel', wheel, { passive: false });
  element.addEventListener('keydown', key);
  element.addEventListener('contextmenu', menu);
  return () => {
    element.removeEventListener('pointerdown', press);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', lift);
    element.removeEventListener('pointercancel', lift);
    element.removeEventListener('pointerleave', leave);
    element.removeEventListener('wheel', wheel);
    element.removeEventListener('keydown', key);
    element.removeEventListener('contextmenu', menu);
  };
}
