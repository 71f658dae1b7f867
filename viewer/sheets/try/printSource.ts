import { effect, type ReadonlySignal, type Signal, signal, untracked } from '@preact/signals';
import type { PrintFacts } from '../../../src/job/inspection/printFacts.ts';
import type { Problem } from '../../../src/job/problem.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { FormPaper, ReadingForm } from '../../../src/output/readingForm/index.ts';
import type { Bench } from '../../bench/bench.ts';
import type { PrintAsked } from '../../spine/tasks/inspect.ts';
import type { Text } from '../measure/draft.ts';
import type { ReadingSource } from '../measure/readingDesk.ts';
import { localDay } from './localDay.ts';
import { Newest } from './newest.ts';
import { printTexts, withPrintTexts } from './printTexts.ts';

/** Which print is meant: the one that goes on, another one, or the last one though it was felt or the job has changed. */
export type Which = 'open' | 'again' | 'last';

/** Readings of the print on the bench, which stand in its record. Asks the worker what to read and what that says whenever
 *  the job has changed, as long as the sheet is looked at; what it said last stays until then. */
export class PrintSource implements ReadingSource {
  readonly #bench: Bench;
  readonly #facts = signal<PrintFacts | null>(null);
  readonly #of = signal<JobFile | null>(null);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #form = signal<ReadingForm | null>(null);
  readonly #paper = signal<FormPaper | null>(null);
  #drawnKey = '';
  readonly which: Signal<Which> = signal('open');
  /** Day on which a print is first spoken of, YYYY-MM-DD; blank for today. */
  readonly day: Signal<string> = signal('');

  constructor(bench: Bench) {
    this.#bench = bench;
    const facts = new Newest<() => void>((take) => take());
    const form = new Newest<() => void>((take) => take());
    effect(() => {
      void bench.laid.value;
      this.#facts.value = null;
      this.#of.value = null;
      this.#form.value = null;
      this.#drawnKey = '';
      this.which.value = 'open';
      this.day.value = '';
    });
    effect(() => {
      const [job, asked] = [bench.job.value, this.asked()];
      // After a fault of the worker going on is the sign to ask again.
      void bench.spine.turn.value;
      if (bench.sheet.value !== 'try') return;
      const laid = bench.laid.peek();
      facts.ask(async () => {
        // Needs no geometry, so it need not wait for the part to be made anew.
        const answer = await bench.spine.look((spine) => spine.print(job, asked));
        return () => {
          if (bench.laid.peek() === laid) this.#answered(job, answer);
        };
      });
    });
    effect(() => {
      const [paper, known] = [this.#paper.value, this.#facts.value];
      void bench.spine.turn.value;
      if (!paper || !known || bench.sheet.value !== 'try') return;
      const job = this.#of.peek() ?? bench.job.peek();
      const { family, donor, choices, sizes, texts } = job;
      const drawn = Object.values(known.record.sizes).map((size) => size.drawn);
      const key = JSON.stringify([paper, family, donor, choices, sizes, texts, drawn]);
      if (key === this.#drawnKey) return;
      const asked = untracked(() => this.asked());
      form.ask(async () => {
        const answer = await bench.spine.ask('the drawing', (spine) => spine.printForm(job, asked, paper));
        return () => {
          if ('kind' in answer) return;
          this.#drawnKey = key;
          this.#form.value = answer;
        };
      });
    });
  }

  /** What the worker is asked for; today's date is that of the moment. */
  asked(): PrintAsked {
    const which = this.which.value;
    return {
      date: this.day.value || localDay(Date.now()),
      again: which === 'again',
      last: which === 'last',
    };
  }

  get facts(): ReadonlySignal<PrintFacts | null> {
    return this.#facts;
  }

  /** Whether what is said is of an older version of the job. */
  get stale(): boolean {
    return this.#of.value !== this.#bench.job.value;
  }

  /** Why nothing can be said of a print; empty where it can. */
  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  get form(): ReadonlySignal<ReadingForm | null> {
    return this.#form;
  }

  lay(paper: FormPaper): void {
    if (JSON.stringify(this.#paper.peek()) !== JSON.stringify(paper)) this.#paper.value = paper;
  }

  texts(job: JobFile, id: string): readonly Text[] {
    const facts = this.#facts.peek();
    return facts ? printTexts(job, facts, id) : [];
  }

  withTexts(job: JobFile, id: string, texts: readonly Text[]): JobFile {
    const facts = this.#facts.peek();
    return facts ? withPrintTexts(job, facts, id, texts) : job;
  }

  told(name: string): string {
    return `${name} of the print`;
  }

  #answered(
    job: JobFile,
    answer: PrintFacts | { readonly kind: 'refused'; readonly problems: readonly Problem[] },
  ): void {
    this.#of.value = job;
    if ('kind' in answer) {
      // What is shown of a print would be of a job that is no more.
      this.#trouble.value = answer.problems;
      this.#facts.value = null;
      this.#form.value = null;
      this.#drawnKey = '';
      return;
    }
    this.#trouble.value = [];
    this.#facts.value = answer;
    // Another print is one from its first reading on.
    if (this.which.peek() === 'again' && !answer.isNew) this.which.value = 'open';
  }
}
