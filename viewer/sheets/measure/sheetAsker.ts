import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { JobFacts } from '../../../src/job/jobFacts.ts';
import type { Problem } from '../../../src/job/problem.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { FormPaper, ReadingForm } from '../../../src/output/readingForm/index.ts';
import type { Bench } from '../../bench/bench.ts';

/** Rest after the last change before the drawing is done again, ms: it takes the worker a second, which typing needs more,
 *  and may move the field that has the cursor. What changes the views themselves is awaited sooner. */
const REST = { typing: 6000, readings: 1500, views: 120 } as const;

/** Asks the worker for what the sheet shows: what is to be measured, and the drawing. Each only when what it hangs on has
 *  changed, the newest only, and the old one stays until then. */
export class SheetAsker {
  readonly #bench: Bench;
  readonly #facts = signal<JobFacts | null>(null);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #form = signal<ReadingForm | null>(null);
  readonly #paper = signal<FormPaper | null>(null);
  #factsKey = '';
  #drawnKey = '';
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** `typing` gives the text being typed, so that its every change puts the drawing off. */
  constructor(bench: Bench, typing: () => string | undefined) {
    this.#bench = bench;
    effect(() => {
      // Besides the job itself: after a fault of the worker the next outcome is the sign to ask again.
      void bench.outcome.value;
      const job = bench.job.value;
      const key = factsKey(job);
      // Another part: what is shown of the one before would be read as belonging to this one.
      if (this.#facts.peek()?.family.id !== job.family) {
        this.#facts.value = null;
        this.#form.value = null;
        this.#drawnKey = '';
      }
      if (key !== this.#factsKey) void this.#askFacts(job, key);
    });
    effect(() => {
      const paper = this.#paper.value;
      const typed = typing();
      clearTimeout(this.#timer);
      if (!paper || bench.sheet.value !== 'measure' || bench.stale.value) return;
      const job = bench.job.value;
      const [views, key] = drawnKeys(job, paper, bench.outcome.value?.kind === 'made');
      if (key === this.#drawnKey) return;
      const sameViews = this.#drawnKey.startsWith(views);
      const rest = sameViews ? (typed === undefined ? REST.readings : REST.typing) : REST.views;
      this.#timer = setTimeout(() => void this.#askForm(job, paper, key), rest);
    });
  }

  get facts(): ReadonlySignal<JobFacts | null> {
    return this.#facts;
  }

  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  get form(): ReadonlySignal<ReadingForm | null> {
    return this.#form;
  }

  lay(paper: FormPaper): void {
    const now = this.#paper.peek();
    if (JSON.stringify(now) !== JSON.stringify(paper)) this.#paper.value = paper;
  }

  async #askFacts(job: JobFile, key: string): Promise<void> {
    this.#factsKey = key;
    try {
      const facts = await this.#bench.spine.look((spine) => spine.facts(job));
      if (this.#factsKey !== key) return;
      if ('kind' in facts) this.#trouble.value = facts.problems;
      else {
        this.#facts.value = facts;
        this.#trouble.value = [];
      }
    } catch {
      // The page says itself that the worker broke.
      if (this.#factsKey === key) this.#factsKey = '';
    }
  }

  async #askForm(job: JobFile, paper: FormPaper, key: string): Promise<void> {
    this.#drawnKey = key;
    try {
      const form = await this.#bench.spine.ask('the drawing', (spine) => spine.form(job, paper));
      if (this.#drawnKey === key && !('kind' in form)) this.#form.value = form;
    } catch {
      if (this.#drawnKey === key) this.#drawnKey = '';
      return;
    }
    // Normal sizes follow the readings.
    void this.#askFacts(this.#bench.job.peek(), factsKey(this.#bench.job.peek()));
  }
}

/** All of a job that what is asked for hangs on; its readings are understood on the page. */
function factsKey(job: JobFile): string {
  const { family, donor, unit, callipers, choices, sizes, texts, material, printer, surroundings } = job;
  return JSON.stringify([
    family,
    donor,
    unit,
    callipers,
    choices,
    sizes,
    texts,
    material,
    printer,
    surroundings,
  ]);
}

/** What the views hang on, and that with the readings the part is drawn by: typical ones until it can be made. */
function drawnKeys(job: JobFile, paper: FormPaper, made: boolean): readonly [string, string] {
  const { family, donor, choices, sizes, texts, readings } = job;
  const views = JSON.stringify([paper, family, donor, choices, made]);
  return [views, `${views}${JSON.stringify([sizes, texts, made ? readings : null])}`];
}
