import { expose, type Remote, wrap } from 'comlink';

/** What is looked for on a model: bores and posts, or where it can change. */
export type Sought = 'features' | 'stretches';

/** Where a worker gets the models that the job on the bench refits: it asks the page when it needs one. */
export interface ModelShelf {
  /** SHA-256 of the model that the job knows by that name; undefined where it is not there. */
  hash(name: string): Promise<string | undefined>;
  bytes(name: string): Promise<Uint8Array | undefined>;
  /** How much of a large model is read and looked at, 0 to 1, and what is looked for on it now; 0 when that is done. */
  reads(share: number, seeks?: Sought): Promise<void>;
}

/** The same, and the models of every other job in the drawer. */
export interface DrawerShelf extends ModelShelf {
  /** Bytes of a model by their SHA-256; undefined where it is not there. */
  stored(hash: string): Promise<Uint8Array | undefined>;
}

/** Lets a worker reach the shelf; at once after it was opened. */
export function giveShelf(worker: Pick<Worker, 'postMessage'>, shelf: DrawerShelf): void {
  const { port1, port2 } = new MessageChannel();
  expose(shelf, port1);
  worker.postMessage({ shelf: port2 }, [port2]);
}

/** The shelf the page gives, on the worker's side. Call it before anything is awaited. */
export function shelfFromPage(scope: Pick<EventTarget, 'addEventListener'>): DrawerShelf {
  let here: Remote<DrawerShelf> | undefined;
  const given = new Promise<Remote<DrawerShelf>>((take) => {
    scope.addEventListener('message', (event) => {
      const { data } = event as MessageEvent<{ readonly shelf?: MessagePort } | null>;
      if (!data?.shelf) return;
      here = wrap<DrawerShelf>(data.shelf);
      take(here);
    });
  });
  return {
    hash: async (name) => (await given).hash(name),
    bytes: async (name) => (await given).bytes(name),
    // Without a wait: who reads a model does nothing else until it is read.
    reads: async (share, seeks) => here?.reads(share, seeks),
    stored: async (hash) => (await given).stored(hash),
  };
}
