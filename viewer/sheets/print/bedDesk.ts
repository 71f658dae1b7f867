import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Bench } from '../../bench/bench.ts';
import type { RefusedJob } from '../../spine/protocol.ts';
import type { BedFacts } from '../../spine/tasks/plate.ts';

/** How the job's parts lie on the bed: asked for while the sheet is looked at, once the verdict on the job is there, so that
 *  neither waits for the other. */
export class BedDesk {
  readonly #facts = signal<BedFacts | null>(null);
  readonly #refused = signal<RefusedJob | null>(null);
  readonly #stale = signal(false);
  #asked: unknown = null;

  constructor(bench: Bench) {
    effect(() => {
      void bench.laid.value;
      this.#facts.value = null;
      this.#refused.value = null;
      this.#asked = null;
    });
    effect(() => {
      const outcome = bench.outcome.value;
      const stale = bench.stale.value;
      // What cannot be made any more lies there as it was.
      this.#stale.value = stale || outcome?.kind === 'refused';
      if (bench.sheet.value !== 'print' || stale || outcome?.kind !== 'made' || this.#asked === outcome)
        return;
      this.#asked = outcome;
      const job = bench.job.peek();
      bench.spine
        .ask('the bed', (spine) => spine.bed(job))
        .then(
          (bed) => {
            if (this.#asked !== outcome) return;
            this.#refused.value = 'kind' in bed ? bed : null;
            this.#facts.value = 'kind' in bed ? null : bed;
          },
          () => {
            // The page says itself that the worker broke.
            if (this.#asked === outcome) this.#asked = null;
          },
        );
    });
  }

  get facts(): ReadonlySignal<BedFacts | null> {
    return this.#facts;
  }

  /** Why the parts do not lie on it. */
  get refused(): ReadonlySignal<RefusedJob | null> {
    return this.#refused;
  }

  get stale(): ReadonlySignal<boolean> {
    return this.#stale;
  }
}

const desks = new WeakMap<Bench, BedDesk>();

/** The bed of a bench, the same one each time. */
export function bedDesk(bench: Bench): BedDesk {
  const there = desks.get(bench) ?? new BedDesk(bench);
  desks.set(bench, there);
  return there;
}
