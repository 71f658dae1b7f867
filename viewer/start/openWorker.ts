import { modelShelf } from '../donor/modelsHere.ts';
import { giveShelf } from '../spine/modelShelf.ts';

/** The worker around the spine; a file of its own, so that what is first on the page does not wait for it. */
export function openWorker(): Worker {
  const worker = new Worker(new URL('../spine/spine.worker.ts', import.meta.url), {
    type: 'module',
    name: 'spine',
  });
  giveShelf(worker, modelShelf);
  return worker;
}
