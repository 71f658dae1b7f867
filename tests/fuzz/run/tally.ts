import type { Message } from './messages.ts';

type Ended = Extract<Message, { what: 'ended' }>;

/** Above this many times the median of what is made of its kind, something hangs. */
export const HANGS = 20;
/** Fewer times tell no median. */
const FEWEST = 10;

/** What was seen of one kind. */
export interface KindTally {
  readonly kind: string;
  readonly all: readonly Ended[];
}

/** Everything a run saw, kind by kind. */
export class Tally {
  readonly #kinds = new Map<string, Ended[]>();

  constructor(kinds: readonly string[]) {
    for (const kind of kinds) this.#kinds.set(kind, []);
  }

  add(ended: Ended): void {
    this.#kinds.get(ended.kind)?.push(ended);
  }

  get kinds(): readonly KindTally[] {
    return [...this.#kinds].map(([kind, all]) => ({ kind, all }));
  }

  /** How many of each kind are done. */
  get counts(): Readonly<Record<string, number>> {
    return Object.fromEntries(this.kinds.map(({ kind, all }) => [kind, all.length]));
  }
}

export const median = (list: readonly number[]): number =>
  [...list].sort((a, b) => a - b)[list.length >> 1] ?? 0;
const isMade = ({ outcome }: Pick<Ended, 'outcome'>): boolean =>
  outcome !== 'refused' && outcome !== 'failed';

/** What a case of a kind may be measured against, ms: the median of those that end the same way, or where it is refused,
 *  which can come after all the work was done, the longest such median of its kind. Infinite while too little was made to
 *  tell. */
export function usual({ all }: KindTally): (one: Pick<Ended, 'outcome'>) => number {
  const made = all.filter(isMade);
  const times = new Map(
    [...new Set(made.map(({ outcome }) => outcome))].flatMap((label) => {
      const own = made.filter(({ outcome }) => outcome === label);
      return own.length < FEWEST ? [] : [[label, median(own.map(({ ms }) => ms))] as const];
    }),
  );
  const whole = made.length < FEWEST ? Infinity : median(made.map(({ ms }) => ms));
  const most = Math.max(whole, ...times.values());
  return (one) => times.get(one.outcome) ?? (isMade(one) ? Infinity : most);
}

/** Cases that take longer than their kind allows, the slowest first. */
export function slow(tally: KindTally): readonly Ended[] {
  const allowed = usual(tally);
  return tally.all.filter((one) => one.ms > HANGS * allowed(one)).sort((a, b) => b.ms - a.ms);
}

/** Counts of a kind for a table: tried, made, refused, failed. */
export const countsOf = ({ all }: KindTally) => ({
  tried: all.length,
  made: all.filter(isMade).length,
  refused: all.filter(({ outcome }) => outcome === 'refused').length,
  failed: all.filter(({ outcome }) => outcome === 'failed').length,
});

/** How often each word comes, most often first. */
export function often(words: readonly string[]): readonly (readonly [string, number])[] {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a);
}
