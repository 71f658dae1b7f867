import { batch, computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { PlateKind } from '../../../src/job/plateFiles.ts';
import { SPACING_ALLOWED } from '../../../src/job/plateSpacing.ts';
import type { Bench } from '../../bench/bench.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import type { Outcome, RefusedJob } from '../../spine/answers.ts';
import type { BedFacts } from '../../spine/tasks/plate.ts';
import type { PlateAsked, RefusedPlate } from '../../spine/tasks/plateJobs.ts';
import type { TakenFile } from '../../spine/tasks/takeAway.ts';
import { AlongDesk } from './alongDesk.ts';

/** What was laid out: a version of the job, and what else was asked for. */
interface Laid {
  readonly outcome: Outcome;
  readonly key: string;
}

/** How the job's parts lie on the bed, with those of other jobs where they are to be printed along: asked for while the sheet
 *  is looked at, once the verdict on the job is there, so that neither waits for the other. */
export class BedDesk {
  readonly #bench: Bench;
  readonly #drawer: Drawer;
  /** What is printed along. */
  readonly along: AlongDesk;
  readonly #facts = signal<BedFacts | null>(null);
  readonly #refused = signal<RefusedJob | RefusedPlate | null>(null);
  readonly #laid = signal<Laid | null>(null);
  readonly #key: ReadonlySignal<string>;
  /** What is shown is of an earlier state of the job, or of what is printed along. */
  readonly stale: ReadonlySignal<boolean>;
  #asked: Laid | null = null;

  constructor(bench: Bench, drawer: Drawer) {
    this.#bench = bench;
    this.#drawer = drawer;
    const along = new AlongDesk(bench, drawer);
    this.along = along;
    this.#key = computed(() => JSON.stringify([along.asked.value, along.apart.value ?? null]));
    this.stale = computed(() => {
      const [outcome, laid] = [bench.outcome.value, this.#laid.value];
      if (bench.stale.value || outcome?.kind === 'refused') return true;
      return laid !== null && (laid.outcome !== outcome || laid.key !== this.#key.value);
    });
    effect(() => {
      void bench.laid.value;
      batch(() => {
        this.#facts.value = null;
        this.#refused.value = null;
        this.#laid.value = null;
      });
      this.#asked = null;
    });
    effect(() => {
      const [outcome, key] = [bench.outcome.value, this.#key.value];
      if (bench.sheet.value !== 'print' || bench.stale.value || outcome?.kind !== 'made') return;
      // A distance that is none leaves what lies there.
      if (along.apart.value === null) return;
      if (this.#asked?.outcome === outcome && this.#asked.key === key) return;
      void this.#lay({ outcome, key });
    });
  }

  get facts(): ReadonlySignal<BedFacts | null> {
    return this.#facts;
  }

  /** Why the parts do not lie on it. */
  get refused(): ReadonlySignal<RefusedJob | RefusedPlate | null> {
    return this.#refused;
  }

  /** The plate as a file: the job on the bench first, then the others as they were ticked. */
  async files(kind: PlateKind): Promise<readonly TakenFile[] | RefusedJob> {
    const apart = this.along.apart.peek();
    if (apart === null)
      return {
        kind: 'refused',
        problems: [
          {
            code: 'spacing_range',
            field: 'apart',
            value: this.along.spacing.peek(),
            allowed: SPACING_ALLOWED,
          },
        ],
      };
    const jobs = this.#jobs();
    return this.#bench.spine.ask('the plate', (spine) => spine.plateFiles(jobs, kind, apart));
  }

  #jobs(): readonly PlateAsked[] {
    const bench = this.#bench;
    return [
      { job: bench.job.peek(), models: this.#drawer.keeper.models },
      ...this.along.asked.peek().map(({ job, models }) => ({ job, models })),
    ];
  }

  async #lay(asked: Laid): Promise<void> {
    this.#asked = asked;
    const [jobs, apart] = [this.#jobs(), this.along.apart.peek() ?? undefined];
    const alone = !this.along.isAsked.peek();
    try {
      const bed = await this.#bench.spine.ask(
        'the bed',
        (spine): Promise<BedFacts | RefusedJob> =>
          alone ? spine.bed(jobs[0]!.job) : spine.plate(jobs, apart),
      );
      if (this.#asked !== asked) return;
      batch(() => {
        this.#refused.value = 'kind' in bed ? bed : null;
        this.#facts.value = 'kind' in bed ? null : bed;
        this.#laid.value = asked;
      });
    } catch {
      // The page says itself that the worker broke, or was stopped.
      if (this.#asked === asked) this.#asked = null;
    }
  }
}

const desks = new WeakMap<Bench, BedDesk>();

/** The bed of a bench, the same one each time. */
export function bedDesk(bench: Bench, drawer: Drawer): BedDesk {
  const there = desks.get(bench) ?? new BedDesk(bench, drawer);
  desks.set(bench, there);
  return there;
}
