import { type ReadonlySignal, signal } from '@preact/signals';

const isNewer = signal(false);
/** Whether a newer Fettle was fetched and waits until it is asked for, or until every tab is closed. */
export const newer: ReadonlySignal<boolean> = isNewer;

/** Time between two looks for a newer one, ms. */
const HOUR = 60 * 60 * 1000;
let waiting: ServiceWorker | null = null;

/** Keeps the page for times without a network, and looks for a newer one now and then. Does nothing where the browser has no
 *  service workers, as on hosts without TLS; the page works all the same, with its host. */
export async function keepOffline(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    const kept = await navigator.serviceWorker.register(new URL('./sw.js', document.baseURI));
    const look = (worker: ServiceWorker | null) => {
      // The very first one is no newer one.
      if (worker?.state !== 'installed' || !navigator.serviceWorker.controller) return;
      waiting = worker;
      isNewer.value = true;
    };
    look(kept.waiting);
    kept.addEventListener('updatefound', () => {
      const coming = kept.installing;
      coming?.addEventListener('statechange', () => look(coming));
    });
    let last = Date.now();
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState !== 'visible' || Date.now() - last < HOUR) return;
      last = Date.now();
      kept.update().catch(() => {});
    });
  } catch {
    // A browser that forbids it: nothing is promised that is not there.
  }
}

/** Goes on with the newer one. */
export function takeNewer(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting?.postMessage({ type: 'SKIP_WAITING' });
}
