/** What the tabs of one browser tell each other. */
export type TabWord =
  /** A job lies in the drawer in a later revision. */
  | { readonly kind: 'saved'; readonly id: string; readonly revision: number }
  /** Printers, or which jobs there are, changed. */
  | { readonly kind: 'sorted' }
  /** A tab asks for the pen of a job; who has it saves first, and answers. */
  | { readonly kind: 'give'; readonly id: string }
  | { readonly kind: 'given'; readonly id: string };

/** The line between the tabs. */
export interface Tabs {
  say(word: TabWord): void;
  /** Calls back with what other tabs say, until the function given back is called. */
  hear(take: (word: TabWord) => void): () => void;
}

const silent: Tabs = { say: () => {}, hear: () => () => {} };

/** The line between the tabs of this browser; a dead one where there is none. */
export function openTabs(name = 'fettle'): Tabs {
  if (typeof BroadcastChannel === 'undefined') return silent;
  const channel = new BroadcastChannel(name);
  return {
    say: (word) => channel.postMessage(word),
    hear(take) {
      const listener = ({ data }: MessageEvent) => take(data as TabWord);
      channel.addEventListener('message', listener);
      return () => channel.removeEventListener('message', listener);
    },
  };
}
