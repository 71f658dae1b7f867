import type { JobStore, StoredJob } from './jobStore.ts';

/** Of a browser's storage what this needs: written before `setItem` returns. */
export type Words = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const KEY = 'fettle last words ';
/** Steps that can be taken back, where all of them are more than the storage holds. */
const FEW = 20;

/** A drawer that also writes down at once what a closing page puts into it: a browser may end the page before a drawer in
 *  IndexedDB is shut. Whoever opens it next, another tab or the next visit, puts what was written down into it first. */
export function withLastWords(store: JobStore, words: Words | undefined = wordsHere()): JobStore {
  if (!words) return store;
  const said = (): readonly string[] =>
    Array.from({ length: words.length }, (_, k) => words.key(k)).filter(
      (key): key is string => key?.startsWith(KEY) ?? false,
    );
  const settle = async (): Promise<void> => {
    for (const key of said()) {
      const text = words.getItem(key);
      const job = text === null ? undefined : jobIn(text);
      if (job && ((await store.job(job.id))?.revision ?? 0) < job.revision) await store.overwrite(job);
      if (words.getItem(key) === text) words.removeItem(key);
    }
  };
  const settled =
    <A extends readonly unknown[], T>(deed: (...args: A) => Promise<T>) =>
    async (...args: A): Promise<T> => {
      await settle();
      return deed(...args);
    };
  return {
    ...store,
    jobs: settled(store.jobs),
    job: settled(store.job),
    update: settled(store.update),
    async overwrite(job) {
      const key = `${KEY}${job.id}`;
      const text = wordsOf(job, (short) => words.setItem(key, short));
      await store.overwrite(job);
      if (text !== undefined && words.getItem(key) === text) words.removeItem(key);
    },
  };
}

/** Writes a job down, with fewer steps to take back where it does not fit; undefined where nothing does. */
function wordsOf(job: StoredJob, write: (text: string) => void): string | undefined {
  for (const steps of [Number.POSITIVE_INFINITY, FEW]) {
    const text = JSON.stringify({ ...job, past: job.past.slice(-steps), future: job.future.slice(0, steps) });
    try {
      write(text);
      return text;
    } catch {
      // Full, or forbidden: the drawer may take it all the same.
    }
  }
  return undefined;
}

function jobIn(text: string): StoredJob | undefined {
  try {
    const job = JSON.parse(text) as Partial<StoredJob> | null;
    return typeof job?.id === 'string' && typeof job.revision === 'number' && job.now
      ? (job as StoredJob)
      : undefined;
  } catch {
    return undefined;
  }
}

function wordsHere(): Words | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}
