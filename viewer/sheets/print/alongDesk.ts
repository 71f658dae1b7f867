import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { SPACING_ALLOWED, spacingTyped } from '../../../src/job/plateSpacing.ts';
import type { Problem } from '../../../src/job/problem.ts';
import type { Bench } from '../../bench/bench.ts';
import type { JobLine } from '../../bench/jobStore.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import type { PlateAsked } from '../../spine/tasks/plateJobs.ts';

/** Another job of the drawer, and whether it can be printed along. */
export interface AlongLine {
  readonly line: JobLine;
  readonly isAlong: boolean;
  /** What stands against it; empty where nothing is known to. */
  readonly problems: readonly Problem[];
}

/** Which jobs of the drawer are to be printed along with the one on the bench, and how far apart. Part of no job: it is
 *  forgotten with the page, and once another job lies on the bench. */
export class AlongDesk {
  readonly #bench: Bench;
  /** Ids in the order in which they were ticked. */
  readonly #along = signal<readonly string[]>([]);
  readonly #problems = signal<ReadonlyMap<string, readonly Problem[]>>(new Map());
  /** Whether the list is unfolded: the drawer is looked through only then. */
  readonly isOpen: Signal<boolean> = signal(false);
  /** Distance between parts as typed; blank for the usual one. */
  readonly spacing: Signal<string> = signal('');
  /** Jobs of the drawer but for the one on the bench. */
  readonly others: ReadonlySignal<readonly JobLine[]>;
  readonly lines: ReadonlySignal<readonly AlongLine[]>;
  /** The jobs to be laid along, in their order. */
  readonly asked: ReadonlySignal<readonly (PlateAsked & { readonly id: string })[]>;

  constructor(bench: Bench, drawer: Drawer) {
    this.#bench = bench;
    this.others = computed(() =>
      drawer.lines.value.filter(({ id, thrown }) => thrown === undefined && id !== drawer.keeper.id.value),
    );
    this.lines = computed(() =>
      this.others.value.map((line) => ({
        line,
        isAlong: this.#along.value.includes(line.id),
        problems: this.#problems.value.get(line.id) ?? [],
      })),
    );
    this.asked = computed(() =>
      this.#along.value.flatMap((id) => {
        const line = this.others.value.find((one) => one.id === id);
        return line ? [{ id, job: line.now, models: line.models }] : [];
      }),
    );
    effect(() => {
      void bench.laid.value;
      batch(() => {
        this.#along.value = [];
        this.#problems.value = new Map();
        this.spacing.value = '';
      });
    });
    this.#lookThrough();
  }

  /** mm; undefined for the usual one, null while what is typed is none. */
  readonly apart: ReadonlySignal<number | undefined | null> = computed(() =>
    this.spacing.value.trim() === '' ? undefined : (spacingTyped(this.spacing.value) ?? null),
  );

  /** What is wrong with the distance typed; empty where nothing is. */
  readonly apartTrouble: ReadonlySignal<string> = computed(() =>
    this.apart.value === null ? `allowed: ${SPACING_ALLOWED}` : '',
  );

  /** Whether anything is asked for that the job alone is not laid out by. */
  readonly isAsked: ReadonlySignal<boolean> = computed(
    () => this.asked.value.length > 0 || typeof this.apart.value === 'number',
  );

  /** Takes a job along, or leaves it out. */
  tick(id: string, along: boolean): void {
    const others = this.#along.peek().filter((one) => one !== id);
    this.#along.value = along ? [...others, id] : others;
  }

  /** Looks through the drawer while the list is unfolded, and again when something in it or in the job has changed. */
  #lookThrough(): void {
    const bench = this.#bench;
    let last = '';
    effect(() => {
      const others = this.others.value;
      const job = bench.job.value;
      void bench.spine.turn.value;
      if (!this.isOpen.value || bench.sheet.value !== 'print') return;
      const key = JSON.stringify([job, others.map(({ id, now }) => [id, now])]);
      if (key === last) return;
      last = key;
      bench.spine
        .look((spine) =>
          spine.whyNotAlong(
            job,
            others.map(({ now }) => now),
          ),
        )
        .then(
          (all) => {
            if (key !== last) return;
            this.#problems.value = new Map(others.map(({ id }, k) => [id, all[k] ?? []]));
          },
          () => {
            // The page says itself that the worker broke.
            if (key === last) last = '';
          },
        );
    });
  }
}
