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

/** Steps kept; typing an evening long makes some hundreds. */
const MOST = 500;

/** A step further. Changes of the same thing in one go, as digits typed after one another, are one step: those with the
 *  same `what` while nothing else happened, when `joined`. */
export function stepped(history: History, job: JobFile, what: string, joined = false): History {
  const last = history.past.at(-1);
  if (joined && last?.what === what && history.future.length === 0) return { ...history, now: job };
  return { now: job, past: [...history.past, { job: history.now, what }].slice(-MOST), future: [] };
}

/** A step back; the same history when there is none. */
export function undone({ now, past, future }: History): History {
  const last = past.at(-1);
  if (!last) return { now, past, future };
  return { now: last.job, past: past.slice(0, -1), future: [{ job: now, what: last.what }, ...future] };
}

/** A step forward again; the same history when there is none. */
export function redone({ now, past, future }: History): History {
  const [next, ...later] = future;
  if (!next) return { now, past, future };
  return { now: next.job, past: [...past, { job: now, what: next.what }], future: later };
}

/** The job on the bench, as signals. */
export class JobHistory {
  readonly #history;
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

  change(job: JobFile, what: string, joined = false): void {
    this.#history.value = stepped(this.#history.peek(), job, what, joined);
  }

  undo(): void {
    this.#history.value = undone(this.#history.peek());
  }

  redo(): void {
    this.#history.value = redone(this.#history.peek());
  }

  /** Takes over what another tab has saved. */
  replace(history: History): void {
    this.#history.value = history;
  }
}
