import { batch, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { LengthWish } from '../../src/job/changedLengths.ts';
import type { Problem } from '../../src/job/problem.ts';
import type { RefitSheet, ShownChange, ShownSpan } from '../../src/job/refitSheet.ts';
import type { JobFile } from '../../src/job/schema.ts';
import type { Bench } from '../bench/bench.ts';
import type { ShownModel } from '../spine/answers.ts';
import type { LitWay } from './tracedBands.ts';
import { alongWords } from './words.ts';

/** A stretch that somebody is at: longer by so much than it is. */
export interface Draft {
  readonly span: number;
  readonly by: number;
}

/** The sheet about a model: what is shown, and what somebody is at. */
export class RefitDesk {
  readonly bench: Bench;
  /** What is shown; that of an older state of the job while the newest is worked out. Null before the first. */
  readonly #sheet = signal<ShownModel | null>(null);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #refused = signal<readonly Problem[]>([]);
  readonly #busy = signal(false);
  /** Along which axis; null until the first sheet says which one is likely. */
  readonly axis: Signal<number | null> = signal(null);
  readonly roll: Signal<number> = signal(0);
  readonly draft: Signal<Draft | null> = signal(null);
  /** The stretch that somebody is at or was last, by its place; null for none. */
  readonly at: Signal<number | null> = signal(null);
  /** The way that is pointed at: shown on the picture where it would be. */
  readonly lit: Signal<LitWay | null> = signal(null);
  #key = '';
  readonly #stop: () => void;

  constructor(bench: Bench) {
    this.bench = bench;
    this.#stop = effect(() => {
      // Besides the job itself: after a fault of the worker the next outcome is the sign to ask again.
      void bench.outcome.value;
      const job = bench.job.value;
      const [axis, roll] = [this.axis.value, this.roll.value];
      const key = keyOf(job, axis, roll);
      if (key !== this.#key) void this.#ask(job, axis, roll, key);
    });
  }

  leave(): void {
    this.#stop();
    this.#key = '';
  }

  get sheet(): ReadonlySignal<ShownModel | null> {
    return this.#sheet;
  }

  /** Why there is no sheet. */
  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  /** Why the last wish was not granted. */
  get refused(): ReadonlySignal<readonly Problem[]> {
    return this.#refused;
  }

  /** A wish is being granted; the next one waits until what it made is seen. */
  get busy(): ReadonlySignal<boolean> {
    return this.#busy;
  }

  /** Looks along another axis. */
  look(axis: number): void {
    batch(() => {
      this.axis.value = axis;
      this.draft.value = null;
      this.at.value = null;
      this.lit.value = null;
      this.#refused.value = [];
    });
  }

  /** Makes a stretch so much longer than it is, its mirror image with it. */
  stretch(index: number, by: number): void {
    const sheet = this.#sheet.peek();
    const span = sheet?.spans[index];
    if (!sheet || !span) return;
    const whole = by * sharers(sheet, index);
    const { axis } = sheet.axes[sheet.shown]!;
    const change = span.change === null ? undefined : sheet.changes[span.change];
    const wish: LengthWish =
      change && typeof change.of === 'number'
        ? { kind: 'set', change: change.of, by: change.by + whole, here: true }
        : { kind: 'add', axis, by: whole, stretch: { from: span.from, to: span.to } };
    void this.#wish(`length ${alongWords(axis)}`, wish);
  }

  /** Makes the whole so much longer than it is along the axis shown, wherever that leaves no trace. */
  whole(by: number): void {
    const sheet = this.#sheet.peek();
    if (!sheet || by === 0) return;
    const { axis } = sheet.axes[sheet.shown]!;
    const last = this.changesAlong(sheet).at(-1);
    const wish: LengthWish =
      last && typeof last.of === 'number'
        ? { kind: 'set', change: last.of, by: last.by + by }
        : { kind: 'add', axis, by };
    void this.#wish(`length ${alongWords(axis)}`, wish);
  }

  /** Changes of the job along the axis shown. */
  changesAlong(sheet: RefitSheet): readonly ShownChange[] {
    const { axis } = sheet.axes[sheet.shown]!;
    const along = (other: ShownChange['axis']): boolean =>
      Math.abs(axis.reduce((sum, x, k) => sum + x * other[k]!, 0)) > 1 - 1e-9;
    return sheet.changes.filter((change) => typeof change.of === 'number' && along(change.axis));
  }

  take({ of, axis }: ShownChange, way: number): void {
    if (typeof of === 'number')
      void this.#wish(`the way ${alongWords(axis)}`, { kind: 'take', change: of, way });
    else
      this.bench.change(`the way ${alongWords(axis)}`, (job) =>
        withDonor(job, (donor) => ({ ...donor, take: { ...donor.take, [of]: way + 1 } })),
      );
  }

  undo({ of, axis }: ShownChange): void {
    if (typeof of === 'number')
      void this.#wish(`length ${alongWords(axis)} as in the model`, { kind: 'set', change: of, by: 0 });
  }

  setLopsided(lopsided: boolean): void {
    void this.#wish('symmetry', { kind: 'lopsided', lopsided });
  }

  /** Says what the numbers of the file are; null: as guessed. */
  setUnits(units: NonNullable<JobFile['donor']>['units'] | null): void {
    this.bench.change('unit of the model', (job) =>
      withDonor(job, ({ units: _, ...donor }) => (units ? { ...donor, units } : donor)),
    );
  }

  async #wish(what: string, wish: LengthWish): Promise<void> {
    if (this.#busy.peek()) return;
    this.#busy.value = true;
    this.#refused.value = [];
    const job = this.bench.job.peek();
    try {
      const granted = await this.bench.spine.ask('the length', (spine) => spine.changeLength(job, wish));
      if ('kind' in granted) {
        batch(() => {
          this.#refused.value = granted.problems;
          this.#settle();
        });
        return;
      }
      // The answer is of that very job; whatever was done to it since stands.
      if (JSON.stringify(this.bench.job.peek().donor) !== JSON.stringify(job.donor)) {
        this.#settle();
        return;
      }
      const before = this.#key;
      const { changes, lopsided } = granted;
      this.bench.change(what, (now) =>
        withDonor(now, ({ lopsided: _, ...donor }) => ({
          ...donor,
          changes: [...changes],
          ...(lopsided && { lopsided }),
        })),
      );
      // Where nothing came of it no sheet comes either.
      if (this.#key === before) this.#settle();
    } catch {
      // The page says itself that the worker broke or was stopped.
      this.#settle();
    }
  }

  #settle(): void {
    batch(() => {
      this.#busy.value = false;
      this.draft.value = null;
    });
  }

  async #ask(job: JobFile, axis: number | null, roll: number, key: string): Promise<void> {
    this.#key = key;
    const newest = () => this.#key === key;
    try {
      const sheet = await this.bench.spine.ask('the model', async (spine) =>
        newest() ? spine.modelSheet(job, { axis, roll }) : null,
      );
      if (sheet === null || !newest()) return;
      batch(() => {
        // A stretch that is being pulled meanwhile stays in hand, if it is still there.
        const before = this.#sheet.peek();
        const pulled = this.#busy.peek() ? null : this.draft.peek();
        this.#settle();
        this.#trouble.value = 'kind' in sheet ? sheet.problems : [];
        this.lit.value = null;
        if ('kind' in sheet) return;
        const next = withKnownMesh(sheet, before);
        if (next.round.mesh === before?.round.mesh && next.shown === before.shown) this.draft.value = pulled;
        this.#sheet.value = next;
        this.#key = keyOf(job, sheet.shown, roll);
        this.axis.value = sheet.shown;
      });
    } catch {
      if (!newest()) return;
      this.#key = '';
      this.#settle();
    }
  }
}

/** The sheet with the mesh of the one before where that is the same: what is made of it for the picture stays good. */
function withKnownMesh(sheet: ShownModel, before: ShownModel | null): ShownModel {
  const { mesh } = sheet.round;
  const known = before?.round.mesh;
  const isSame =
    known !== undefined && alike(mesh.positions, known.positions) && alike(mesh.triangles, known.triangles);
  return isSame ? { ...sheet, round: { ...sheet.round, mesh: known } } : sheet;
}

const alike = (a: Float32Array | Uint32Array, b: typeof a): boolean =>
  a.length === b.length && Array.prototype.every.call(a, (x: number, k: number) => x === b[k]);

/** How many stretches change with one, itself among them. */
export const sharers = ({ spans }: Pick<RefitSheet, 'spans'>, index: number): number => {
  const partner = spans[index]?.partner ?? null;
  return partner === null || partner === index ? 1 : 2;
};

/** Whether a stretch can change by itself or with its mirror image. */
export const isFree = ({ mirror }: Pick<RefitSheet, 'mirror'>, { partner }: ShownSpan): boolean =>
  mirror === null || partner !== null;

/** All of a job that the sheet hangs on. */
function keyOf(
  { donor, unit, callipers, readings = {} }: JobFile,
  axis: number | null,
  roll: number,
): string {
  const lengths = Object.entries(readings).filter(([id]) => id.startsWith('length'));
  return JSON.stringify([donor, unit, callipers, lengths, axis, roll]);
}

const withDonor = (
  job: JobFile,
  change: (donor: NonNullable<JobFile['donor']>) => NonNullable<JobFile['donor']>,
): JobFile => (job.donor ? { ...job, donor: change(job.donor) } : job);
