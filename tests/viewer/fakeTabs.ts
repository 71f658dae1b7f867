import type { Locks } from '../../viewer/bench/pen.ts';
import type { Tabs, TabWord } from '../../viewer/bench/tabs.ts';

/** A line between tabs as BroadcastChannel has it: everybody hears but who speaks, a little later. */
export function fakeLine(): () => Tabs {
  const ears: { readonly tab: object; readonly take: (word: TabWord) => void }[] = [];
  return () => {
    const tab = {};
    return {
      say: (word) => {
        for (const ear of [...ears])
          if (ear.tab !== tab) queueMicrotask(() => ears.includes(ear) && ear.take(structuredClone(word)));
      },
      hear: (take) => {
        const ear = { tab, take };
        ears.push(ear);
        return () => void ears.splice(ears.indexOf(ear), 1);
      },
    };
  };
}

interface Wish {
  readonly granted: (lock: object | null) => Promise<void> | undefined;
  readonly resolve: (value: unknown) => void;
  readonly reject: (reason: Error) => void;
}

/** Exclusive locks as the Web Locks specification has them (W3C, "Web Locks API", sections 3.1 to 3.3): one holder, a
 *  queue, `ifAvailable`, `steal`, and waits that can be given up. `late` is when who was robbed hears of it, ms: browsers with
 *  a process a tab tell the new holder and the old one in either order. */
export function fakeLocks(late?: number): Locks {
  const held = new Map<string, Wish>();
  const queues = new Map<string, Wish[]>();
  const next = (name: string): void => {
    const wish = held.has(name) ? undefined : queues.get(name)?.shift();
    if (wish) grant(name, wish);
  };
  const grant = (name: string, wish: Wish): void => {
    held.set(name, wish);
    queueMicrotask(() => {
      Promise.resolve(wish.granted({})).then((value) => {
        if (held.get(name) !== wish) return;
        held.delete(name);
        wish.resolve(value);
        next(name);
      }, wish.reject);
    });
  };
  return {
    request: (name, { ifAvailable, steal, signal }, granted) =>
      new Promise((resolve, reject) => {
        const wish: Wish = { granted, resolve, reject };
        const queue = queues.get(name) ?? [];
        queues.set(name, queue);
        if (steal) {
          const robbed = held.get(name);
          const tell = () => robbed?.reject(new DOMException('stolen', 'AbortError'));
          if (late === undefined) tell();
          else setTimeout(tell, late);
          grant(name, wish);
        } else if (!held.has(name) && queue.length === 0) grant(name, wish);
        else if (ifAvailable) Promise.resolve(granted(null)).then(resolve, reject);
        else {
          queue.push(wish);
          signal?.addEventListener('abort', () => {
            if (!queue.includes(wish)) return;
            queue.splice(queue.indexOf(wish), 1);
            reject(new DOMException('given up', 'AbortError'));
          });
        }
      }),
  };
}
