import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { PrinterProfile } from '../../src/printer/types.ts';
import type { History } from './jobHistory.ts';

/** A job as it lies in the drawer. */
export interface StoredJob extends History {
  readonly id: string;
  /** Counts up with every save, so that a tab sees when another was at it. */
  readonly revision: number;
  /** When it was last saved, ms since 1970; for the order of the list alone. */
  readonly saved: number;
}

/** A model file that jobs refit, by the SHA-256 of its bytes. */
export interface StoredModel {
  readonly hash: string;
  readonly name: string;
  readonly bytes: Uint8Array;
}

interface Shape extends DBSchema {
  jobs: { key: string; value: StoredJob };
  printers: { key: string; value: PrinterProfile };
  models: { key: string; value: StoredModel };
}

/** Where jobs, printers and models are kept: IndexedDB of this browser, nowhere else. */
export type JobDrawer = IDBPDatabase<Shape>;

/** Opens the drawer. Rejects where the browser keeps nothing (private windows of some, storage forbidden): the page then
 *  works on, and says that nothing will be kept. */
export const openDrawer = (): Promise<JobDrawer> =>
  openDB<Shape>('fettle', 1, {
    upgrade(drawer) {
      drawer.createObjectStore('jobs', { keyPath: 'id' });
      drawer.createObjectStore('printers', { keyPath: 'name' });
      drawer.createObjectStore('models', { keyPath: 'hash' });
    },
  });

/** Saves a job unless another tab has saved a later one meanwhile. Says what lies there now. */
export async function saveJob(
  drawer: JobDrawer,
  job: Omit<StoredJob, 'revision' | 'saved'>,
  basedOn: number,
): Promise<
  { readonly saved: true; readonly revision: number } | { readonly saved: false; readonly theirs: StoredJob }
> {
  const deed = drawer.transaction('jobs', 'readwrite', { durability: 'strict' });
  const there = await deed.store.get(job.id);
  if (there && there.revision !== basedOn) {
    await deed.done;
    return { saved: false, theirs: there };
  }
  const revision = basedOn + 1;
  await Promise.all([deed.store.put({ ...job, revision, saved: Date.now() }), deed.done]);
  return { saved: true, revision };
}
