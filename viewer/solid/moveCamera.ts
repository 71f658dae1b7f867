import type { Signal } from '@preact/signals';
import { between, type Camera } from './camera.ts';

/** Motion takes this long, ms; none where less motion is asked for. */
const EASE = 140;

/** Moves a camera to where it shall be. A later move takes over from an earlier one. */
export class CameraMover {
  readonly #camera: Signal<Camera>;
  #next = 0;

  constructor(camera: Signal<Camera>) {
    this.#camera = camera;
  }

  to(camera: Camera): void {
    cancelAnimationFrame(this.#next);
    const from = this.#camera.peek();
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.#camera.value = camera;
      return;
    }
    const start = performance.now();
    const step = (now: number): void => {
      const share = Math.min(1, Math.max(0, (now - start) / EASE));
      this.#camera.value = share < 1 ? between(from, camera, share * (2 - share)) : camera;
      if (share < 1) this.#next = requestAnimationFrame(step);
    };
    this.#next = requestAnimationFrame(step);
  }

  /** At once, as under a hand. */
  by(change: (camera: Camera) => Camera): void {
    cancelAnimationFrame(this.#next);
    this.#camera.value = change(this.#camera.peek());
  }
}
