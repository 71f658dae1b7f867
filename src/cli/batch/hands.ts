import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import type { MakeAnswer, MakeTask } from './makeOne.ts';

/** Threads that make jobs side by side. */
export interface Hands {
  /** Makes a job on the next thread that is free. Rejects with what ended the thread, if that happened; another thread
   *  takes its place. */
  readonly make: (task: MakeTask) => Promise<MakeAnswer>;
  readonly letGo: () => Promise<void>;
}

/** Starts `count` threads. `worker` is the module whose default export makes a job. */
export function takeHands(worker: URL, count: number): Hands {
  const pool = new Piscina<MakeTask, MakeAnswer>({
    filename: fileURLToPath(worker),
    minThreads: count,
    maxThreads: count,
    recordTiming: false,
  });
  // What a thread says when it ends without a job in hand, such as one that cannot even start: without threads, what waits
  // in the queue would wait for ever.
  let broken: Error | undefined;
  const waiting = new Set<(error: Error) => void>();
  pool.on('error', (error: Error) => {
    broken = error;
    for (const reject of waiting) reject(error);
  });
  return {
    make: async (task) => {
      if (broken) throw broken;
      // Not a race with one promise for all, which would hold on to the answer of every job.
      return new Promise((resolve, reject) => {
        waiting.add(reject);
        pool
          .run(task)
          .finally(() => waiting.delete(reject))
          .then(resolve, reject);
      });
    },
    letGo: () => pool.destroy(),
  };
}
