import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { History } from './jobHistory.ts';
import type { JobLine, JobStore, StoredJob, StoredModel, StoredPrinter } from './jobStore.ts';
import { withLastWords } from './lastWords.ts';

interface Shape extends DBSchema {
  jobs: { key: string; value: JobLine };
  /** Beside the jobs, so that the list need not read what was typed all evening. */
  pasts: { key: string; value: Pick<History, 'past' | 'future'> & { readonly id: string } };
  printers: { key: string; value: StoredPrinter };
  models: { key: string; value: StoredModel };
}

/** Opens the drawer in which jobs, printers and models are kept: IndexedDB of this browser, nowhere else. Rejects where the
 *  browser keeps nothing (private windows of some, storage forbidden), and when it has not answered after `patience` ms:
 *  the page then works on, and says that nothing will be kept. */
export async function openDrawer(patience = 4000): Promise<JobStore> {
  let wait: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    wait = setTimeout(() => reject(new Error('the browser does not answer')), patience);
  });
  const link = new Link();
  try {
    await Promise.race([link.open(), late]);
    return withLastWords(storeOf(link));
  } finally {
    clearTimeout(wait);
  }
}

/** A connection that is opened again when the browser lets go of it: after a fault of its own, or for a newer Fettle. */
class Link {
  #open: Promise<IDBPDatabase<Shape>> | undefined;
  #now: IDBPDatabase<Shape> | undefined;

  open(): Promise<IDBPDatabase<Shape>> {
    this.#open ??= openDB<Shape>('fettle', 1, {
      upgrade(drawer) {
        for (const name of ['jobs', 'pasts', 'printers'] as const)
          drawer.createObjectStore(name, { keyPath: 'id' });
        drawer.createObjectStore('models', { keyPath: 'hash' });
      },
      blocking: () => this.#close(),
      terminated: () => this.#close(),
    }).then(
      (drawer) => {
        this.#now = drawer;
        return drawer;
      },
      (error: unknown) => {
        this.#open = undefined;
        throw error;
      },
    );
    return this.#open;
  }

  /** The connection if it is there at this moment. */
  get now(): IDBPDatabase<Shape> | undefined {
    return this.#now;
  }

  #close(): void {
    this.#now?.close();
    this.#now = undefined;
    this.#open = undefined;
  }
}

/** Line and past of a job, which lie apart. */
function apart({ past, future, ...line }: StoredJob): [JobLine, Shape['pasts']['value']] {
  return [line, { id: line.id, past, future }];
}

function storeOf(link: Link): JobStore {
  const together = (line: JobLine | undefined, past: Shape['pasts']['value'] | undefined) =>
    line && { past: past?.past ?? [], future: past?.future ?? [], ...line };
  return {
    async jobs() {
      const lines = await (await link.open()).getAll('jobs');
      return lines.sort((a, b) => b.saved - a.saved);
    },
    async job(id) {
      const deed = (await link.open()).transaction(['jobs', 'pasts']);
      const [line, past] = await Promise.all([
        deed.objectStore('jobs').get(id),
        deed.objectStore('pasts').get(id),
        deed.done,
      ]);
      return together(line, past);
    },
    async update(id, change) {
      const deed = (await link.open()).transaction(['jobs', 'pasts'], 'readwrite', { durability: 'strict' });
      const [jobs, pasts] = [deed.objectStore('jobs'), deed.objectStore('pasts')];
      const there = together(...(await Promise.all([jobs.get(id), pasts.get(id)])));
      let changed: StoredJob | undefined;
      try {
        changed = change(there);
      } catch (error) {
        deed.abort();
        await deed.done.catch(() => {});
        throw error;
      }
      if (changed === undefined || changed === there) {
        await deed.done;
        return there;
      }
      const next: StoredJob = {
        ...changed,
        id,
        revision: (there?.revision ?? 0) + 1,
        saved: Date.now(),
      };
      const [line, past] = apart(next);
      await Promise.all([jobs.put(line), pasts.put(past), deed.done]);
      return next;
    },
    async overwrite(job) {
      // Nothing is waited for while the connection stands: the page may be gone then.
      const deed = (link.now ?? (await link.open())).transaction(['jobs', 'pasts'], 'readwrite', {
        durability: 'strict',
      });
      const [line, past] = apart({ ...job, saved: Date.now() });
      const written = [deed.objectStore('jobs').put(line), deed.objectStore('pasts').put(past), deed.done];
      deed.commit();
      await Promise.all(written);
    },
    async remove(ids) {
      const deed = (await link.open()).transaction(['jobs', 'pasts'], 'readwrite');
      const gone = ids.flatMap((id) => [
        deed.objectStore('jobs').delete(id),
        deed.objectStore('pasts').delete(id),
      ]);
      await Promise.all([...gone, deed.done]);
    },
    async printers() {
      const printers = await (await link.open()).getAll('printers');
      return printers.sort((a, b) => b.saved - a.saved);
    },
    async putPrinter(printer) {
      await (await link.open()).put('printers', printer);
    },
    async removePrinters(ids) {
      const deed = (await link.open()).transaction('printers', 'readwrite');
      await Promise.all([...ids.map((id) => deed.store.delete(id)), deed.done]);
    },
    async model(hash) {
      return (await link.open()).get('models', hash);
    },
    async putModel(model) {
      await (await link.open()).put('models', model);
    },
  };
}
