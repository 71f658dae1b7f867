import { type ReadonlySignal, signal } from '@preact/signals';
import type { Tabs } from './tabs.ts';

/** Of the Web Locks API what a pen needs. */
export interface Locks {
  request(
    name: string,
    options: { readonly ifAvailable?: boolean; readonly steal?: boolean; readonly signal?: AbortSignal },
    granted: (lock: object | null) => Promise<void> | undefined,
  ): Promise<unknown>;
}

/** Who may write: this tab, or another one. */
export type PenPlace = 'here' | 'elsewhere';

/** How long another tab may take to put down what it has, ms, before the pen is taken from its hand: a tab in the
 *  background may be asleep. */
const PATIENCE = 700;

/** A wish for the pen of one job, granted or not. */
interface Hold {
  readonly id: string;
  /** Ends the wait for it. */
  readonly over: AbortController;
  /** Puts it down. */
  put?: () => void;
}

/** The pen of the job on the bench. One tab has it; the others show the job as it is written, and may take the pen. When
 *  the tab that has it closes, the next one gets it. Where the browser knows no locks every tab has a pen, and what they
 *  write is laid together as it is saved. */
export class Pen {
  readonly #tabs: Tabs;
  readonly #locks: Locks | undefined;
  readonly #patience: number;
  readonly #place = signal<PenPlace>('here');
  #isSure = false;
  /** The lock that is held now, told from one that was held before: its loss may be heard of after the next is granted. */
  #lock: object | undefined;
  /** The take under way: every digit typed meanwhile asks for the pen too, and would rob this very tab. */
  #taking: Promise<void> | undefined;
  /** The hold on the lock of the job now; ended when another job comes. */
  #hold: Hold | undefined;
  /** Saves what is typed before the pen is given away. */
  beforeGiving: () => Promise<void> = async () => {};

  constructor(tabs: Tabs, locks: Locks | undefined, patience = PATIENCE) {
    this.#tabs = tabs;
    this.#locks = locks;
    this.#patience = patience;
    tabs.hear((word) => {
      if (word.kind !== 'give' || word.id !== this.#hold?.id || this.#place.peek() !== 'here') return;
      const answer = () => tabs.say({ kind: 'given', id: word.id });
      this.beforeGiving().then(answer, answer);
    });
  }

  get place(): ReadonlySignal<PenPlace> {
    return this.#place;
  }

  /** Whether no other tab writes this job for certain: the lock is held, not only nobody else heard of. */
  get isSure(): boolean {
    return this.#isSure;
  }

  /** Takes up the pen of another job if nobody has it, and waits for it otherwise. Resolves when it is known which. */
  async hold(id: string): Promise<void> {
    this.#hold?.over.abort();
    this.#hold?.put?.();
    const hold: Hold = { id, over: new AbortController() };
    this.#hold = hold;
    this.#isSure = false;
    this.#place.value = 'here';
    if (!this.#locks) return;
    await new Promise<void>((known) => {
      const nobody = { ifAvailable: true } as const;
      this.#ask(hold, nobody, known, () => {
        this.#place.value = 'elsewhere';
        known();
        this.#ask(hold, { signal: hold.over.signal });
      });
    });
  }

  /** Takes the pen from the tab that has it, once that has saved what was typed there. */
  take(): Promise<void> {
    this.#taking ??= this.#take().finally(() => {
      this.#taking = undefined;
    });
    return this.#taking;
  }

  async #take(): Promise<void> {
    const hold = this.#hold;
    if (!hold || !this.#locks || this.#place.peek() === 'here') return;
    await this.#given(hold.id);
    if (hold !== this.#hold) return;
    await new Promise<void>((known) => this.#ask(hold, { steal: true }, known));
  }

  /** The other tab has put down what it had, or is asleep. */
  #given(id: string): Promise<void> {
    return new Promise((resolve) => {
      const done = () => {
        clearTimeout(wait);
        deaf();
        resolve();
      };
      const wait = setTimeout(done, this.#patience);
      const deaf = this.#tabs.hear((word) => word.kind === 'given' && word.id === id && done());
      this.#tabs.say({ kind: 'give', id });
    });
  }

  #ask(
    hold: Hold,
    options: Parameters<Locks['request']>[1],
    known: () => void = () => {},
    taken: () => void = () => {},
  ): void {
    const mine = {};
    const lost = () => {
      if (hold !== this.#hold || hold.over.signal.aborted || this.#lock !== mine) return;
      this.#isSure = false;
      this.#place.value = 'elsewhere';
      this.#ask(hold, { signal: hold.over.signal });
    };
    let had = false;
    this.#locks!.request(`fettle job ${hold.id}`, options, (lock) => {
      if (lock === null) {
        taken();
        return undefined;
      }
      if (hold !== this.#hold) return undefined;
      had = true;
      this.#lock = mine;
      this.#isSure = true;
      this.#place.value = 'here';
      known();
      return new Promise<void>((put) => {
        hold.put = put;
      });
    }).catch(() => {
      // The pen was taken from this hand; a wait that was given up ends here too.
      if (had) lost();
      known();
    });
  }
}
