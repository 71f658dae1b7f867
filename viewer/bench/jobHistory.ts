import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { JobFile } from '../../src/job/schema.ts';

/** A job with what it was before, and what it was before it was taken back. */
export interface History {
  readonly now: JobFile;
  /** Oldest first. */
  readonly past: readonly Step[];
  /** What comes next when redone, first. */
  readonly future: readonly Step[];
}

/** A job as it was, and what was done then: "socket width read", in the words of a bench. */
export interface Step {
  readonly job: JobFile;
  readonly what: string;
}

/** Something done to a job, as a rule rather than a result: done again on what another tab has saved meanwhile, nothing of
 *  either is lost. Gives back the very history it was given where there is nothing to do. */
export type Deed = (history: History) => History;

/** Steps kept; typing an evening long makes some hundreds. */
const MOST = 500;

/** A job as it is taken up, with nothing to undo. */
export const freshHistory = (job: JobFile): History => ({ now: job, past: [], future: [] });

/** A step further. Changes of the same thing in one go, as digits typed after one another, are one step: those with the
 *  same `what` while nothing else happened, when `joined`. */
export function stepped(history: History, job: JobFile, what: string, joined = false): History {
  const last = history.past.at(-1);
  if (joined && last?.what === what && history.future.length === 0) return { ...history, now: job };
  return { now: job, past: [...history.past, { job: history.now, what }].slice(-MOST), future: [] };
}

/** A step back; the same history when there is none. */
export function undone(history: History): History {
  const { now, past, future } = history;
  const last = past.at(-1);
  if (!last) return history;
  return { now: last.job, past: past.slice(0, -1), future: [{ job: now, what: last.what }, ...future] };
}

/** A step forward again; the same history when there is none. */
export function redone(history: History): History {
  const { now, past, future } = history;
  const [next, ...later] = future;
  if (!next) return history;
  return { now: next.job, past: [...past, { job: now, what: next.what }], future: later };
}

/** The job on the bench, as signals. */
export class JobHistory {
  readonly #history;
  readonly #watchers = new Set<(deed: Deed) => void>();
  readonly job: ReadonlySignal<JobFile>;
  /** What undo would take back and redo bring again; null for nothing. */
  readonly undoes: ReadonlySignal<string | null>;
  readonly redoes: ReadonlySignal<string | null>;

  constructor(history: History) {
    this.#history = signal(history);
    this.job = computed(() => this.#history.value.now);
    this.undoes = computed(() => this.#history.value.past.at(-1)?.what ?? null);
    this.redoes = computed(() => this.#history.value.future[0]?.what ?? null);
  }

  get history(): ReadonlySignal<History> {
    return this.#history;
  }

  /** Does a deed, and tells those who watch of it. */
  do(deed: Deed): void {
    const before = this.#history.peek();
    const after = deed(before);
    if (after === before) return;
    this.#history.value = after;
    for (const watcher of this.#watchers) watcher(deed);
  }

  /** A step by a rule; none when it gives back the very job it was given. */
  step(what: string, change: (job: JobFile) => JobFile, joined = false): void {
    this.do((history) => {
      const job = change(history.now);
      return job === history.now ? history : stepped(history, job, what, joined);
    });
  }

  change(job: JobFile, what: string, joined = false): void {
    this.step(what, () => job, joined);
  }

  undo(): void {
    this.do(undone);
  }

  redo(): void {
    this.do(redone);
  }

  /** Shows another history, of another job or with what another tab has saved; no deed of this tab. */
  replace(history: History): void {
    this.#history.value = history;
  }

  /** Calls back after every deed, until the function given back is called. */
  watch(watcher: (deed: Deed) => void): () => void {
    this.#watchers.add(watcher);
    return () => void this.#watchers.delete(watcher);
  }
}
