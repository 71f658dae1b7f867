import { batch, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SpineClient, SpineState } from './spineClient.ts';

/** How long something is reckoned before a screen reader hears of it, ms. */
const LONG = 4000;
/** Tasks that follow one another within this are one wait, ms. */
const GAP = 300;

/** What a screen reader hears of a long wait: that it is one, once, and that it is over. A wait for the part ends with its
 *  verdict, which is spoken where verdicts are. */
export class SpokenWait {
  readonly #said = signal('');
  readonly #count = signal(0);
  #what = '';
  /** What was waited for when that was said; null while nothing was. */
  #spokenOf: string | null = null;
  #start: ReturnType<typeof setTimeout> | undefined;
  #end: ReturnType<typeof setTimeout> | undefined;

  constructor(state: ReadonlySignal<SpineState>) {
    effect(() => this.#hear(state.value));
  }

  /** What was said last; blank once there is nothing more to say. */
  get said(): ReadonlySignal<string> {
    return this.#said;
  }

  /** Counts the waits that were spoken of. */
  get count(): ReadonlySignal<number> {
    return this.#count;
  }

  #hear(state: SpineState): void {
    clearTimeout(this.#end);
    if (state.kind === 'working') {
      this.#what = state.what;
      this.#start ??= setTimeout(() => this.#speak(), LONG);
    } else if (state.kind === 'idle') {
      if (this.#start !== undefined) this.#end = setTimeout(() => this.#over(), GAP);
    } else this.#forget('');
  }

  #speak(): void {
    this.#spokenOf = this.#what;
    batch(() => {
      this.#count.value++;
      this.#said.value = `Still reckoning ${this.#what}.`;
    });
  }

  #over(): void {
    const of = this.#spokenOf;
    this.#forget(of === null || of === 'the part' ? '' : `Done: ${of}.`);
  }

  #forget(last: string): void {
    clearTimeout(this.#start);
    this.#start = undefined;
    this.#spokenOf = null;
    this.#said.value = last;
  }
}

const waits = new WeakMap<SpineClient, SpokenWait>();

/** What is said of the waits for a worker, the same each time. */
export function spokenWait(spine: SpineClient): SpokenWait {
  const there = waits.get(spine) ?? new SpokenWait(spine.state);
  waits.set(spine, there);
  return there;
}
