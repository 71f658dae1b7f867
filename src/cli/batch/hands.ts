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
  // What a thread says when it ends without a job in hand, such as one that cannot even start; without threads what
  // waits in the queue would wait for ever.
  const broken = new Promise<never>((_, reject) => pool.on('error', reject));
  broken.catch(() => {});
  return {
    make: (task) => Promise.race([pool.run(task), broken]),
    letGo: () => pool.destroy(),
  };
}
