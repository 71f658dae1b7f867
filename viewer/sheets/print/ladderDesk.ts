import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { FeltVerdict } from '../../../src/fit/feltRecord.ts';
import { RUNGS, STEP } from '../../../src/job/ladderLimits.ts';
import type { Problem } from '../../../src/job/problem.ts';
import type { JobFile, LadderRecord } from '../../../src/job/schema.ts';
import { profileText } from '../../../src/printer/profileText.ts';
import { parseLength } from '../../../src/units/index.ts';
import type { Bench } from '../../bench/bench.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import { Stopped } from '../../spine/spineClient.ts';
import type { JudgedFacts, LadderFacts } from '../../spine/tasks/ladder.ts';
import { type FeltMark, marked, marksOf, verdictOf } from './feltMarks.ts';
import { profileOf } from './profileOf.ts';
import { today } from './today.ts';

/** Ladders of the job: one interface in steps of clearance, tried on the machine, and what was felt. */
export class LadderDesk {
  readonly #bench: Bench;
  readonly #drawn = signal<LadderFacts | null>(null);
  readonly #drawing = signal(false);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #marks = signal<readonly FeltMark[]>([]);
  readonly #judged = signal<JudgedFacts | null>(null);
  #asked = 0;

  readonly isOpen: Signal<boolean> = signal(false);
  /** The group chosen; null: the first there is. */
  readonly group: Signal<string | null> = signal(null);
  readonly rungs: Signal<number> = signal<number>(RUNGS.normal);
  /** Clearance from one to the next as typed; blank for the usual one. */
  readonly step: Signal<string> = signal('');

  constructor(bench: Bench) {
    this.#bench = bench;
    // Another job, or another ladder of it: what was said of the last one is not said of this.
    effect(() => {
      void bench.laid.value;
      void this.group.value;
      const record = this.record.value;
      batch(() => {
        this.#marks.value = record ? marksOf(record.rungs.length, record.felt) : [];
        this.#judged.value = null;
        this.#trouble.value = [];
        if (this.#drawn.peek()?.group !== this.group.peek()) this.#drawn.value = null;
      });
    });
  }

  /** The ladder of the group as the job remembers it. */
  readonly record: ReadonlySignal<LadderRecord | null> = computed(() => {
    const ladders = this.#bench.job.value.ladders ?? {};
    const group = this.group.value;
    return group !== null && Object.hasOwn(ladders, group) ? (ladders[group] as LadderRecord) : null;
  });

  /** The ladder drawn last in this visit, with its files. */
  get drawn(): ReadonlySignal<LadderFacts | null> {
    return this.#drawn;
  }

  get drawing(): ReadonlySignal<boolean> {
    return this.#drawing;
  }

  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  get marks(): ReadonlySignal<readonly FeltMark[]> {
    return this.#marks;
  }

  /** What the marks come to; null while nothing is said, or it is being worked out. */
  get judged(): ReadonlySignal<JudgedFacts | null> {
    return this.#judged;
  }

  /** What is marked is what the job holds. */
  readonly isIn: ReadonlySignal<boolean> = computed(() => {
    const felt = this.record.value?.felt;
    return (
      felt !== undefined &&
      JSON.stringify(marksOf(this.#marks.value.length, felt)) === JSON.stringify(this.#marks.value)
    );
  });

  /** Draws a ladder of the group and has the job remember it. */
  async draw(group: string): Promise<void> {
    const job = this.#bench.job.peek();
    this.#drawing.value = true;
    this.#trouble.value = [];
    try {
      const [rungs, step] = [this.rungs.peek(), stepTyped(this.step.peek())];
      if (step === null) {
        this.#trouble.value = [stepRefused(this.step.peek())];
        return;
      }
      const drawn = await this.#bench.spine.ask('the ladder', (spine) =>
        spine.ladder(job, group, { rungs, step, date: today() }),
      );
      if ('kind' in drawn) {
        this.#trouble.value = drawn.problems.map(atItsField);
        return;
      }
      batch(() => {
        this.group.value = drawn.group;
        this.#drawn.value = drawn;
        this.#bench.change(`ladder of ${drawn.group} drawn`, (now) =>
          withLadder(now, drawn.group, drawn.record),
        );
      });
    } catch (error) {
      if (!(error instanceof Stopped)) this.#trouble.value = [];
    } finally {
      this.#drawing.value = false;
    }
  }

  /** Says how a rung felt; `at` from 0. */
  mark(at: number, mark: FeltMark): void {
    this.#marks.value = marked(this.#marks.peek(), at, mark);
    void this.#judge();
  }

  /** Has job and printer learn from what was felt. Undo takes it back from the job. */
  async putIn(drawer: Drawer): Promise<void> {
    const [judged, group] = [this.#judged.peek(), this.group.peek()];
    if (!judged || group === null) return;
    const before = profileOf(this.#bench.job.peek());
    const { record, learnt } = judged;
    const marks = this.#marks.peek();
    this.#bench.change(`ladder of ${group} felt`, (job) => withLadder(job, group, record, learnt));
    // The record is new, so the marks have been laid again from it.
    batch(() => {
      this.#marks.value = marks;
      this.#judged.value = judged;
    });
    if (!learnt || !before) return;
    const text = profileText(before);
    const there = drawer.printers.peek().find((one) => profileText(one.profile) === text);
    // Only one that lies in the drawer learns there.
    if (there) await drawer.keepPrinter(learnt, Date.now(), there.id);
  }

  async #judge(): Promise<void> {
    const asked = ++this.#asked;
    const felt: FeltVerdict | null = verdictOf(this.#marks.peek());
    const group = this.group.peek();
    this.#judged.value = null;
    this.#trouble.value = [];
    if (felt === null || group === null) return;
    const job = this.#bench.job.peek();
    try {
      const judged = await this.#bench.spine.ask('the ladder', (spine) =>
        spine.judgeLadder(job, group, felt),
      );
      if (asked !== this.#asked) return;
      if ('kind' in judged) this.#trouble.value = judged.problems;
      else this.#judged.value = judged;
    } catch {
      // The page says itself that the worker broke.
    }
  }
}

/** mm; undefined for the usual one, null for a text that is no length. */
function stepTyped(text: string): number | undefined | null {
  if (text.trim() === '') return undefined;
  const parsed = parseLength(text, 'mm');
  return parsed.ok ? parsed.mm : null;
}

const stepRefused = (text: string): Problem => ({
  code: 'step_range',
  field: 'step',
  value: text.trim(),
  allowed: `${STEP.least} to ${STEP.most} mm`,
});

/** Options of the command are fields here. */
const atItsField = (problem: Problem): Problem => ({
  ...problem,
  field: problem.field === '--rungs' ? 'numbers' : problem.field.replace(/^--/, ''),
});

const withLadder = (
  job: JobFile,
  group: string,
  record: LadderRecord,
  printer?: JudgedFacts['learnt'],
): JobFile =>
  ({ ...job, ...(printer && { printer }), ladders: { ...job.ladders, [group]: record } }) as JobFile;

const desks = new WeakMap<Bench, LadderDesk>();

/** The ladder desk of a bench, the same one each time. */
export function ladderDesk(bench: Bench): LadderDesk {
  const there = desks.get(bench) ?? new LadderDesk(bench);
  desks.set(bench, there);
  return there;
}
