import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { type Remote, releaseProxy, wrap } from 'comlink';
import type { JobFile } from '../../src/job/schema.ts';
import type { Outcome } from './answers.ts';
import { faultWords } from './faultWords.ts';
import type { Spine } from './protocol.ts';

/** What the worker is doing: nothing, working, or it was stopped or broke and waits for a word. */
export type SpineState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'working'; readonly since: number; readonly what: string }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'broken'; readonly because: string };

/** Was stopped by the person; nothing is wrong. */
export class Stopped extends Error {
  constructor() {
    super('stopped');
    this.name = 'Stopped';
  }
}

/** Every method of the spine gives a promise as it is, so across the border it is of the same type. */
const plain = (spine: Remote<Spine>): Spine => spine as unknown as Spine;

/** Time a worker may take until it listens, ms; a phone fetching a megabyte over a bad line is within it. */
const PATIENCE = 60_000;

/** The page's side of the worker. One task at a time, looks beside; of jobs to work only the newest waits, so that typing never queues
 *  up. When the worker breaks (wasm out of memory, a fault, no start), whatever was asked is answered by an error, `state`
 *  says so until a job was worked again, and `restart` opens a new worker: the job itself never lives here. */
export class SpineClient {
  readonly #open: () => Worker;
  readonly #patience: number;
  readonly #state = signal<SpineState>({ kind: 'idle' });
  readonly #turn = signal(0);
  #worker: Worker | undefined;
  #spine: Remote<Spine> | undefined;
  #listening: Promise<unknown> | undefined;
  #deadline: ReturnType<typeof setTimeout> | undefined;
  #giveUp: ((reason: Error) => void) | undefined;
  readonly #looks = new Set<(reason: Error) => void>();
  #tail: Promise<unknown> = Promise.resolve();
  #newest = 0;
  /** Why everything that was asked up to now is void; a new object with every stop and fault. */
  #era: { reason?: Error } = {};

  constructor(open: () => Worker, patience = PATIENCE) {
    this.#open = open;
    this.#patience = patience;
  }

  get state(): ReadonlySignal<SpineState> {
    return this.#state;
  }

  /** Counts the restarts: who keeps something worked asks again when it changes. */
  get turn(): ReadonlySignal<number> {
    return this.#turn;
  }

  /** Works the job, unless a newer one was handed in before its turn came: undefined then. Rejects with `Stopped` or with
   *  what broke. */
  async work(job: JobFile): Promise<Outcome | undefined> {
    const mine = ++this.#newest;
    const outdated = () => mine !== this.#newest;
    return this.#queue<Outcome | undefined>('the part', true, (spine) => spine.work(job), outdated);
  }

  /** Asks for something else; in turn. Rejects as `work` does. */
  ask<T>(what: string, task: (spine: Spine) => Promise<T>): Promise<T> {
    return this.#queue(what, false, task) as Promise<T>;
  }

  /** Asks at once, beside what is being worked: for what needs no geometry and takes a moment, so that the form is there while
   *  the geometry is still on its way. A fault of the work beside it is not its own, so it is asked once more of a new worker.
   *  Rejects as `work` does. */
  async look<T>(task: (spine: Spine) => Promise<T>): Promise<T> {
    const era = this.#era;
    try {
      return await this.#looked(task);
    } catch (error) {
      const itsOwn = !era.reason;
      if (itsOwn) this.#break(error);
      if (itsOwn || error !== era.reason || error instanceof Stopped) throw error;
    }
    const next = this.#era;
    try {
      return await this.#looked(task);
    } catch (error) {
      if (!next.reason) this.#break(error);
      throw error;
    }
  }

  async #looked<T>(task: (spine: Spine) => Promise<T>): Promise<T> {
    let giveUp = (_reason: Error): void => {};
    try {
      return await new Promise<T>((resolve, reject) => {
        giveUp = reject;
        this.#looks.add(giveUp);
        const spine = this.#opened();
        this.#listening!.then(() => task(spine)).then(resolve, reject);
      });
    } finally {
      this.#looks.delete(giveUp);
    }
  }

  /** Opens the worker ahead of the first task. */
  warm(): void {
    try {
      this.#opened();
    } catch (error) {
      this.#break(error);
    }
  }

  /** Stops what is running and what waits: the worker goes, another one comes with the next task. */
  stop(): void {
    if (this.#state.peek().kind === 'broken') return;
    this.#end(new Stopped());
    this.#state.value = { kind: 'stopped' };
  }

  /** Goes on after it broke or was stopped. */
  restart(): void {
    this.#beginAnew();
    this.#state.value = { kind: 'idle' };
    this.#turn.value++;
  }

  #queue<T>(
    what: string,
    isWork: boolean,
    task: (spine: Spine) => Promise<T>,
    outdated: () => boolean = () => false,
  ): Promise<T | undefined> {
    const era = this.#era;
    const turn = this.#tail.then(() => {
      if (era.reason) throw era.reason;
      return outdated() ? undefined : this.#run(what, isWork, task);
    });
    this.#tail = turn.catch(() => {});
    return turn;
  }

  async #run<T>(what: string, isWork: boolean, task: (spine: Spine) => Promise<T>): Promise<T> {
    // That it broke or was stopped stays said until a job is tried again: a drawing that is asked for is no word on it.
    const speaks = () => isWork || ['idle', 'working'].includes(this.#state.peek().kind);
    if (isWork) this.#beginAnew();
    const era = this.#era;
    if (speaks()) this.#state.value = { kind: 'working', since: performance.now(), what };
    try {
      const answer = await new Promise<T>((resolve, reject) => {
        this.#giveUp = reject;
        const spine = this.#opened();
        this.#listening!.then(() => task(spine)).then(resolve, reject);
      });
      if (speaks()) this.#state.value = { kind: 'idle' };
      return answer;
    } catch (error) {
      // What ended the era has said so already.
      if (!era.reason) this.#break(error);
      throw error;
    } finally {
      this.#giveUp = undefined;
    }
  }

  #opened(): Spine {
    if (this.#spine) return plain(this.#spine);
    const worker = this.#open();
    const fails = (reason: () => Error) => () => {
      // A worker that is gone already has no say.
      if (worker === this.#worker) this.#break(reason());
    };
    worker.addEventListener('error', (event) => {
      const message = (event as ErrorEvent).message || 'the worker failed to load';
      fails(() => new Error(message))();
    });
    worker.addEventListener(
      'messageerror',
      fails(() => new Error('an answer could not be read')),
    );
    this.#worker = worker;
    const spine = wrap<Spine>(worker);
    this.#spine = spine;
    this.#listening = spine.started().then(() => clearTimeout(this.#deadline));
    // Who waits for it hears of it; nobody need wait.
    this.#listening.catch(() => {});
    this.#deadline = setTimeout(
      fails(() => new Error(`it did not start within ${this.#patience / 1000} s`)),
      this.#patience,
    );
    return plain(spine);
  }

  /** After a fault inside wasm its memory is anybody's guess, so the worker goes whatever the fault was. */
  #break(fault: unknown): void {
    this.#end(fault instanceof Error ? fault : new Error(String(fault)));
    this.#state.value = { kind: 'broken', because: faultWords(fault) };
  }

  #end(reason: Error): void {
    this.#era.reason = reason;
    this.#era = {};
    this.#close();
    this.#giveUp?.(reason);
    for (const giveUp of this.#looks) giveUp(reason);
  }

  /** A worker that was opened for a look since the last one broke may have met the same fault: work begins on a new one. */
  #beginAnew(): void {
    if (this.#worker && this.#state.peek().kind === 'broken') this.#end(new Error('begun anew'));
  }

  #close(): void {
    clearTimeout(this.#deadline);
    const [spine, worker] = [this.#spine, this.#worker];
    this.#worker = undefined;
    this.#spine = undefined;
    this.#listening = undefined;
    spine?.[releaseProxy]();
    worker?.terminate();
  }
}

/** Calls back with the newest outcome of a job that changes, and never with an older one after a newer. */
export function keepWorked(
  job: ReadonlySignal<JobFile | null>,
  client: SpineClient,
  take: (outcome: Outcome, of: JobFile) => void,
): () => void {
  return effect(() => {
    const now = job.value;
    void client.turn.value;
    if (now === null) return;
    client.work(now).then(
      (outcome) => outcome && job.peek() === now && take(outcome, now),
      () => {},
    );
  });
}
