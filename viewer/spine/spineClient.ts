import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { type Remote, releaseProxy, wrap } from 'comlink';
import type { JobFile } from '../../src/job/schema.ts';
import type { Outcome, Spine } from './protocol.ts';

/** What the worker is doing: nothing, working, or it broke and waits for a word. */
export type SpineState =
  | { readonly kind: 'idle' }
  | { readonly kind: 'working'; readonly since: number; readonly what: string }
  | { readonly kind: 'broken'; readonly because: string };

/** Was stopped by the person; nothing is wrong. */
export class Stopped extends Error {
  constructor() {
    super('stopped');
    this.name = 'Stopped';
  }
}

/** The page's side of the worker. One task at a time; of jobs to work only the newest waits, so that typing never queues
 *  up. When the worker breaks (wasm out of memory, a fault), whatever was asked is answered by an error, `state` says so,
 *  and `restart` opens a new worker: the job itself never lives here. */
export class SpineClient {
  readonly #open: () => Worker;
  readonly #state = signal<SpineState>({ kind: 'idle' });
  #worker: Worker | undefined;
  #spine: Remote<Spine> | undefined;
  #giveUp: ((reason: Error) => void) | undefined;
  #tail: Promise<unknown> = Promise.resolve();
  #newest = 0;

  constructor(open: () => Worker) {
    this.#open = open;
  }

  get state(): ReadonlySignal<SpineState> {
    return this.#state;
  }

  /** Works the job, unless a newer one was handed in before its turn came: undefined then. Rejects with `Stopped` or with
   *  what broke. */
  async work(job: JobFile): Promise<Outcome | undefined> {
    const mine = ++this.#newest;
    return this.#queue<Outcome | undefined>('the part', async (spine) =>
      mine === this.#newest ? spine.work(job) : undefined,
    );
  }

  /** Asks for something else; in turn. */
  ask<T>(what: string, task: (spine: Remote<Spine>) => Promise<T>): Promise<T> {
    return this.#queue(what, task);
  }

  /** Stops what is running: the worker goes, another one comes with the next task. */
  stop(): void {
    this.#fail(new Stopped());
    this.#state.value = { kind: 'idle' };
  }

  /** Goes on after it broke. */
  restart(): void {
    if (this.#state.value.kind === 'broken') this.#state.value = { kind: 'idle' };
  }

  #queue<T>(what: string, task: (spine: Remote<Spine>) => Promise<T>): Promise<T> {
    const turn = this.#tail.then(() => this.#run(what, task));
    this.#tail = turn.catch(() => {});
    return turn;
  }

  async #run<T>(what: string, task: (spine: Remote<Spine>) => Promise<T>): Promise<T> {
    // A broken worker is replaced by a word of the person, and by the next thing they type.
    this.#state.value = { kind: 'working', since: performance.now(), what };
    const spine = this.#opened();
    try {
      const answer = await new Promise<T>((resolve, reject) => {
        this.#giveUp = reject;
        task(spine).then(resolve, reject);
      });
      this.#state.value = { kind: 'idle' };
      return answer;
    } catch (error) {
      if (!(error instanceof Stopped)) {
        // After a fault inside wasm its memory is anybody's guess.
        this.#close();
        const because = error instanceof Error ? error.message : String(error);
        this.#state.value = { kind: 'broken', because };
      }
      throw error;
    } finally {
      this.#giveUp = undefined;
    }
  }

  #opened(): Remote<Spine> {
    if (this.#spine) return this.#spine;
    const worker = this.#open();
    worker.addEventListener('error', ({ message }) =>
      this.#fail(new Error(message || 'the worker did not start')),
    );
    worker.addEventListener('messageerror', () => this.#fail(new Error('an answer could not be read')));
    this.#worker = worker;
    this.#spine = wrap<Spine>(worker);
    return this.#spine;
  }

  #fail(reason: Error): void {
    this.#close();
    this.#giveUp?.(reason);
  }

  #close(): void {
    this.#spine?.[releaseProxy]();
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#spine = undefined;
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
    if (now === null) return;
    client.work(now).then(
      (outcome) => outcome && job.peek() === now && take(outcome, now),
      () => {},
    );
  });
}
