import { type ReadonlySignal, signal } from '@preact/signals';

/** Rest after which a text is said, ms: digits of one reading come quicker. */
const REST = 900;

/** Says a text only once it has stood for a while, and never the same one twice in a row, so that a screen reader hears
 *  where a change ended and not its way there. */
export class Settled {
  readonly #said = signal('');
  readonly #rest: number;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #next = '';

  constructor(rest = REST) {
    this.#rest = rest;
  }

  /** What was said last. */
  get said(): ReadonlySignal<string> {
    return this.#said;
  }

  /** Takes what there would be to say now; null while that is still being worked out. */
  offer(text: string | null): void {
    const next = text ?? '';
    if (next === this.#next && this.#timer !== undefined) return;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#next = next;
    if (next === '' || next === this.#said.peek()) return;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      this.#said.value = next;
    }, this.#rest);
  }

  /** Says the next text even where it is the last one: somebody waited for it. */
  forget(): void {
    this.#said.value = '';
  }

  /** Says nothing any more. */
  end(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
  }
}
