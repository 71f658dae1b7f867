import { Scope } from '../solid/kernel.ts';
import { contentHash } from './contentHash.ts';
import { roughBytes } from './roughBytes.ts';
import { sameContent } from './sameContent.ts';

/** A result with what it was made from. */
interface Entry {
  readonly bucket: string;
  readonly from: unknown;
  readonly value: unknown;
  readonly bytes: number;
  /** Owner of the handles of wasm memory in the value. */
  readonly own?: Scope;
  /** How many scopes use the value now. */
  uses: number;
  forgotten: boolean;
}

/** Bytes kept unless told otherwise: the last handful of parts with all that was found of them. */
const KEPT = 96 * 2 ** 20;

/** What pure steps of the pipeline gave, by the content of what they were given, for whoever makes nearly the same part again and again.
 *  A step that is given the same gives what it gave then: the very object. So its results may be content of further steps, and
 *  none of them may ever be changed.
 *
 *  Holds about `most` bytes, without end where that is infinite; the results used last stay. Solids in wasm memory are counted by their triangles, and are freed when they
 *  are no longer kept and no scope uses them any more. */
export class Remembered {
  readonly #most: number;
  readonly #buckets = new Map<string, Entry[]>();
  /** In the order of use, the latest last. */
  readonly #order = new Set<Entry>();
  readonly #counted = new WeakSet<object>();
  #bytes = 0;
  #found = 0;
  #made = 0;

  constructor(most = KEPT) {
    this.#most = most;
  }

  /** Bytes held now, roughly, and how often a step was spared and done. */
  get tally(): { readonly bytes: number; readonly found: number; readonly made: number } {
    return { bytes: this.#bytes, found: this.#found, made: this.#made };
  }

  /** The result of a step that was given `from`; `make` works it out and looks at nothing else. Plain data without handles. */
  of<T>(step: string, from: unknown, make: () => T): T {
    const bucket = bucketOf(step, from);
    const known = this.#find(bucket, from);
    if (known) return known.value as T;
    const value = make();
    this.#keep(bucket, from, value, this.#rough(from) + this.#rough(value));
    return value;
  }

  /** The same for what lives in wasm memory: what `make` keeps in the scope it is given stays as long as the result is kept here or
   *  `scope` is open. `bytes` says what it takes. */
  held<T>(
    scope: Scope,
    step: string,
    from: unknown,
    make: (own: Scope) => T,
    bytes: (value: T) => number,
  ): T {
    const bucket = bucketOf(step, from);
    const entry = this.#find(bucket, from) ?? this.#hold(scope, bucket, from, make, bytes);
    entry.uses++;
    scope.keep({ delete: () => this.#release(entry) });
    return entry.value as T;
  }

  /** Lets go of everything. What scopes still use is freed when they close. */
  forget(): void {
    for (const entry of [...this.#order]) this.#drop(entry);
  }

  #find(bucket: string, from: unknown): Entry | undefined {
    const entry = this.#buckets.get(bucket)?.find((one) => sameContent(one.from, from));
    if (!entry) {
      this.#made++;
      return undefined;
    }
    this.#found++;
    this.#order.delete(entry);
    this.#order.add(entry);
    return entry;
  }

  #hold<T>(
    { kernel }: Scope,
    bucket: string,
    from: unknown,
    make: (own: Scope) => T,
    bytes: (value: T) => number,
  ): Entry {
    const own = new Scope(kernel);
    try {
      const value = make(own);
      return this.#keep(bucket, from, value, this.#rough(from) + bytes(value), own);
    } catch (error) {
      own.close();
      throw error;
    }
  }

  /** Results are what further steps start from, and count once. */
  #rough(value: unknown): number {
    return this.#most === Number.POSITIVE_INFINITY ? 0 : roughBytes(value, this.#counted);
  }

  #keep(bucket: string, from: unknown, value: unknown, bytes: number, own?: Scope): Entry {
    const entry: Entry = { bucket, from, value, bytes, uses: 0, forgotten: false, ...(own && { own }) };
    const entries = this.#buckets.get(bucket);
    if (entries) entries.push(entry);
    else this.#buckets.set(bucket, [entry]);
    this.#order.add(entry);
    this.#bytes += bytes;
    for (const oldest of this.#order) {
      // What is in use is freed no sooner for being forgotten, and the one just made is about to be.
      if (this.#bytes <= this.#most || oldest === entry) break;
      this.#drop(oldest);
    }
    return entry;
  }

  #drop(entry: Entry): void {
    const rest = this.#buckets.get(entry.bucket)!.filter((one) => one !== entry);
    if (rest.length > 0) this.#buckets.set(entry.bucket, rest);
    else this.#buckets.delete(entry.bucket);
    this.#order.delete(entry);
    this.#bytes -= entry.bytes;
    entry.forgotten = true;
    if (entry.uses === 0) entry.own?.close();
  }

  #release(entry: Entry): void {
    entry.uses--;
    if (entry.forgotten && entry.uses === 0) entry.own?.close();
  }
}

/** Does work with what is remembered; where nobody remembers, with a memory for this work alone. */
export function remembering<T>(known: Remembered | undefined, work: (known: Remembered) => T): T {
  if (known) return work(known);
  const own = new Remembered(Number.POSITIVE_INFINITY);
  try {
    return work(own);
  } finally {
    own.forget();
  }
}

const bucketOf = (step: string, from: unknown): string => `${step} ${contentHash(from)}`;
