import { effect, type ReadonlySignal, type Signal, signal, untracked } from '@preact/signals';
import type { Deed, History, JobHistory } from './jobHistory.ts';
import type { JobStore, StoredJob } from './jobStore.ts';
import type { Pen } from './pen.ts';
import type { Tabs } from './tabs.ts';

/** Whether what is typed is kept. */
export type Keeping =
  | { readonly kind: 'kept' }
  | { readonly kind: 'writing' }
  | { readonly kind: 'unkept'; readonly because: 'no storage' | 'full' | 'fault'; readonly said: string };

/** Time from a keystroke to its saving, ms: some keystrokes go together, none waits for the last of them. */
const SOON = 120;

interface Bench {
  readonly history: JobHistory;
  readonly sheet: Signal<string>;
}

/** Keeps the job on the bench as it is typed. What is saved are deeds: each save reads what lies in the drawer and does
 *  them on that, so that what another tab has saved meanwhile stays. A job that nobody has touched is not put there. */
export class JobKeeper {
  readonly #bench: Bench;
  readonly #store: JobStore;
  readonly #lost: string | undefined;
  readonly #tabs: Tabs;
  readonly #pen: Pen;
  readonly #keeping: Signal<Keeping>;
  readonly #id = signal('');
  #revision = 0;
  #models: Readonly<Record<string, string>> = {};
  /** Done since the last save, oldest first. */
  #unsaved: Deed[] = [];
  #turned = false;
  /** The save on its way, and whether the page overtook it by saving at once. */
  #onItsWay: { readonly deeds: readonly Deed[]; overtaken: boolean } | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #tail: Promise<void> = Promise.resolve();

  /** `lost` is what the browser said where it keeps nothing: the store lasts no longer than the page then. */
  constructor(bench: Bench, store: JobStore, tabs: Tabs, pen: Pen, lost?: string) {
    this.#bench = bench;
    this.#lost = lost;
    this.#store = store;
    this.#tabs = tabs;
    this.#pen = pen;
    this.#keeping = signal(this.#said({ kind: 'kept' }));
    pen.beforeGiving = () => this.flush();
    bench.history.watch((deed) => this.#take(deed));
    let first = true;
    effect(() => {
      void bench.sheet.value;
      if (!first) untracked(() => this.#turn());
      first = false;
    });
    tabs.hear((word) => {
      if (word.kind !== 'saved' || word.id !== this.#id.peek() || word.revision <= this.#revision) return;
      this.#then(() => this.#catchUp());
    });
  }

  /** Of the job on the bench; '' before one was laid there. */
  get id(): ReadonlySignal<string> {
    return this.#id;
  }

  /** Whether this tab writes it. */
  get pen(): Pen {
    return this.#pen;
  }

  get keeping(): ReadonlySignal<Keeping> {
    return this.#keeping;
  }

  /** Whether something typed lies nowhere but on the bench. */
  get isUnsaved(): boolean {
    return this.#unsaved.length > 0;
  }

  /** Models of the job on the bench, by the name it has for them. */
  get models(): Readonly<Record<string, string>> {
    return this.#models;
  }

  /** Takes care of another job from here on, which lies on the bench already. Save the last one first with `flush`. */
  async keep(job: Pick<StoredJob, 'id' | 'revision' | 'models'>): Promise<void> {
    this.#unsaved = [];
    this.#turned = false;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#revision = job.revision;
    this.#models = job.models;
    this.#id.value = job.id;
    await this.#pen.hold(job.id);
  }

  /** Notes under which hash a model lies that the job names. */
  noteModel(name: string, hash: string): void {
    this.#models = { ...this.#models, [name]: hash };
    this.#turned = true;
    this.#soon();
  }

  /** Saves what is not saved yet; resolves when it is, or when it is known that it cannot be. */
  async flush(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#then(() => this.#save());
    await this.#tail;
  }

  /** Saves in one go while the page is going: no answer comes any more. */
  saveAtOnce(): void {
    const overtaken = this.#onItsWay;
    if (this.#unsaved.length === 0 && !this.#turned && !overtaken) return;
    if (!this.#pen.isSure) {
      void this.flush();
      return;
    }
    const id = this.#id.peek();
    const deeds = [...(overtaken?.deeds ?? []), ...this.#unsaved];
    // What is on its way makes a revision too.
    const revision = this.#revision + (overtaken ? 2 : 1);
    if (overtaken) overtaken.overtaken = true;
    this.#revision = revision;
    this.#unsaved = [];
    this.#turned = false;
    this.#store.overwrite(this.#whole(this.#bench.history.history.peek(), revision)).then(
      () => {
        this.#tabs.say({ kind: 'saved', id, revision });
        if (this.#id.peek() === id && this.#unsaved.length === 0)
          this.#keeping.value = this.#said({ kind: 'kept' });
      },
      (error: unknown) => {
        if (this.#id.peek() === id) this.#failed(deeds, error);
      },
    );
  }

  #take(deed: Deed): void {
    this.#unsaved.push(deed);
    // The pen follows the hand.
    if (this.#pen.place.peek() === 'elsewhere') void this.#pen.take();
    this.#soon();
  }

  /** Another sheet is no deed, and a job that nobody touched need not be put away for it. */
  #turn(): void {
    if (this.#revision === 0 || this.#pen.place.peek() === 'elsewhere') return;
    this.#turned = true;
    this.#soon();
  }

  #soon(): void {
    if (this.#keeping.peek().kind === 'kept') this.#keeping.value = { kind: 'writing' };
    this.#timer ??= setTimeout(() => void this.flush(), SOON);
  }

  #said(keeping: Keeping): Keeping {
    return this.#lost === undefined ? keeping : { kind: 'unkept', because: 'no storage', said: this.#lost };
  }

  #then(next: () => Promise<void>): void {
    this.#tail = this.#tail.then(next);
  }

  #whole(history: History, revision: number): StoredJob {
    const { now, past, future } = history;
    return {
      ...{ id: this.#id.peek(), revision, saved: 0, sheet: this.#bench.sheet.peek(), models: this.#models },
      ...{ now, past, future },
    };
  }

  async #save(): Promise<void> {
    if (this.#unsaved.length === 0 && !this.#turned) return;
    const id = this.#id.peek();
    const [deeds, based, turned] = [this.#unsaved, this.#revision, this.#turned];
    const mine = this.#whole(this.#bench.history.history.peek(), based);
    this.#unsaved = [];
    this.#turned = false;
    const onItsWay = { deeds, overtaken: false };
    this.#onItsWay = onItsWay;
    try {
      const next = await this.#store.update(id, (there) => {
        // All of it was written by the page itself, before this or after.
        if (onItsWay.overtaken) return there;
        if (!there || there.revision === based) return mine;
        const { thrown: _, ...theirs } = there;
        return { ...theirs, ...redone(theirs, deeds), models: { ...there.models, ...this.#models } };
      });
      // Another job may have been laid on the bench meanwhile.
      if (next && this.#id.peek() === id && !onItsWay.overtaken) this.#saved(next, based);
    } catch (error) {
      if (this.#id.peek() !== id || onItsWay.overtaken) return;
      this.#turned ||= turned;
      this.#failed(deeds, error);
    } finally {
      this.#onItsWay = undefined;
    }
  }

  #failed(deeds: readonly Deed[], error: unknown): void {
    this.#unsaved = [...deeds, ...this.#unsaved];
    this.#keeping.value = this.#said(unkept(error));
  }

  #saved(next: StoredJob, based: number): void {
    const isMerged = next.revision !== based + 1;
    this.#revision = Math.max(this.#revision, next.revision);
    this.#tabs.say({ kind: 'saved', id: next.id, revision: next.revision });
    if (isMerged) this.#show(next);
    const rest = this.#unsaved.length > 0 || this.#turned;
    this.#keeping.value = this.#said({ kind: rest ? 'writing' : 'kept' });
    if (rest) this.#soon();
  }

  /** Shows what another tab has saved, with what was typed here since on top. */
  async #catchUp(): Promise<void> {
    const id = this.#id.peek();
    const there = await this.#store.job(id).catch(() => undefined);
    if (!there || this.#id.peek() !== id || there.revision <= this.#revision) return;
    this.#revision = there.revision;
    this.#show(there);
  }

  #show(there: StoredJob): void {
    const { now, past, future } = there;
    this.#models = there.models;
    this.#bench.history.replace(redone({ now, past, future }, this.#unsaved));
  }
}

const redone = (history: History, deeds: readonly Deed[]): History =>
  deeds.reduce<History>((before, deed) => deed(before), history);

/** What the browser says when it cannot keep a thing, put in three kinds. */
function unkept(error: unknown): Keeping {
  const { name, message } = error instanceof Error ? error : { name: '', message: String(error) };
  const isFull = name === 'QuotaExceededError' || /quota|disk.*full/i.test(message);
  return { kind: 'unkept', because: isFull ? 'full' : 'fault', said: message };
}
