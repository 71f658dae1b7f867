import { setImmediate, setTimeout } from 'node:timers/promises';
import { RefusedFile } from '../refusedFile.ts';
import { giveBack, takeLock } from './folderLock.ts';

/** How long to wait for somebody else who writes, ms. Writing takes a second at most, on a slow card some. */
const PATIENCE = 10_000;

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Does `work` while no other process writes into these folders, all of which exist, named by their real paths. The work is done in
 *  one go, so that an interrupt comes before it or after it and never in the middle, and no lock is held while anything is
 *  waited for. Throws `RefusedFile` when somebody else does not let go, about the folder, and what the system says. */
export async function holding<T>(
  folders: readonly string[],
  work: () => T,
  patience: number = PATIENCE,
): Promise<T> {
  // One order for everybody would not do: all or none are taken, so nobody waits while he holds something.
  const all = [...new Set(folders)];
  let interrupt: NodeJS.Signals | undefined;
  const interrupted = (signal: NodeJS.Signals) => {
    interrupt = signal;
  };
  for (const signal of SIGNALS) process.on(signal, interrupted);
  try {
    for (const from = performance.now(); interrupt === undefined; ) {
      const taken = takeAll(all);
      if (taken === 'taken') {
        try {
          return work();
        } finally {
          for (const folder of all) giveBack(folder);
        }
      }
      if (performance.now() - from > patience) throw busy(taken.folder, taken.by);
      await setTimeout(10 + 20 * Math.random());
    }
    throw new Error('interrupted');
  } finally {
    // A signal that came meanwhile is told in the next round of events, and would be lost without a listener.
    await setImmediate();
    await setImmediate();
    for (const signal of SIGNALS) process.off(signal, interrupted);
    if (interrupt !== undefined) {
      process.kill(process.pid, interrupt);
      // Nothing more is done or said.
      await new Promise(() => {});
    }
  }
}

function takeAll(folders: readonly string[]): 'taken' | { readonly folder: string; readonly by?: number } {
  const taken: string[] = [];
  let whole = false;
  try {
    for (const folder of folders) {
      const got = takeLock(folder);
      if (got !== 'taken') return { folder, ...(got.by !== undefined && { by: got.by }) };
      taken.push(folder);
    }
    whole = true;
    return 'taken';
  } finally {
    if (!whole) for (const folder of taken) giveBack(folder);
  }
}

const busy = (folder: string, by: number | undefined): RefusedFile =>
  new RefusedFile(folder, [
    {
      code: 'being_written',
      field: '',
      value: `${by === undefined ? 'another process' : `process ${by}`} is writing there`,
      allowed: 'one at a time; try again once it has ended',
    },
  ]);
