/** The worker around the spine; a file of its own, so that what is first on the page does not wait for it. */
export const openWorker = (): Worker =>
  new Worker(new URL('../spine/spine.worker.ts', import.meta.url), { type: 'module', name: 'spine' });
