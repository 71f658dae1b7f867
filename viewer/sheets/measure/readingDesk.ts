import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { ReadingFacts } from '../../../src/job/jobFacts.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { dimensionRead } from '../../../src/job/takenReading.ts';
import { valueTyped } from '../../../src/job/valueTyped.ts';
import { correctedReading } from '../../../src/measure/correctedReading.ts';
import type { Callipers, Dimension } from '../../../src/measure/types.ts';
import type { FormPaper, ReadingForm } from '../../../src/output/readingForm/index.ts';
import type { Bench } from '../../bench/bench.ts';
import { exchanged, sameTexts, type Text } from './draft.ts';
import type { JobUnit } from './figures.ts';
import { nextReading } from './nextReading.ts';
import { type ReadingState, readingState } from './readingState.ts';
import { Typing, type TypingBook } from './typing.ts';

/** One reading as the sheet shows it. */
export interface Row {
  readonly facts: ReadingFacts;
  /** From 1, in the order of measuring. */
  readonly number: number;
  readonly texts: readonly string[];
  /** Why a text cannot be used, by place; null for one that can. */
  readonly refusals: readonly (string | null)[];
  /** What the usable texts read, without zero and lands, in the unit of the reading. */
  readonly sizes: readonly number[];
  readonly dimension: Dimension | null;
  readonly state: ReadingState;
  /** A text that was left in its field though it cannot be read. */
  readonly left: string | undefined;
}

/** Where the readings of a desk come from and go to. */
export interface ReadingSource {
  /** What is to be read and with which callipers; null while that is not known. */
  readonly facts: ReadonlySignal<{
    readonly readings: readonly ReadingFacts[];
    readonly callipers: Callipers;
  } | null>;
  /** The drawing, once there is one. */
  readonly form: ReadonlySignal<ReadingForm | null>;
  /** Tells how wide the sheet is, so that the drawing fits it. */
  lay(paper: FormPaper): void;
  /** Numbers of a reading in a job, as typed. */
  texts(job: JobFile, id: string): readonly Text[];
  /** The job with these instead; a rule that looks at nothing but the job. */
  withTexts(job: JobFile, id: string, texts: readonly Text[]): JobFile;
  /** What undo calls a reading of this name. */
  told(name: string): string;
}

/** A sheet of readings: which are asked for, the drawing, the number being typed. Lives as long as the bench around it, so that
 *  coming back to the sheet finds it as it was left. */
export class ReadingDesk<S extends ReadingSource = ReadingSource> {
  readonly #bench: Bench;
  readonly source: S;
  readonly #dimension = signal<typeof dimensionRead | null>(null);
  /** The number being typed. */
  readonly typing: Typing;
  /** Whether the readings are shown as a plain table instead of on the drawing. */
  readonly asTable: Signal<boolean> = signal(false);
  readonly rows: ReadonlySignal<readonly Row[]>;
  /** The row that the large panel is about: the one being typed, the last one typed, or the first that lacks numbers. */
  readonly row: ReadonlySignal<Row | null>;

  /** `sourceOf` is given what tells the text being typed. */
  constructor(bench: Bench, sourceOf: (typing: () => string | undefined) => S) {
    this.#bench = bench;
    this.typing = new Typing(this.#book());
    this.source = sourceOf(() => this.typing.draft.value?.text);
    this.rows = computed(() => this.#rowsNow());
    this.row = computed(() => {
      const rows = this.rows.value;
      const open = rows.find(({ state }) => state !== 'spared' && state !== 'read');
      return rows.find(({ facts }) => facts.id === this.typing.current.value) ?? open ?? rows[0] ?? null;
    });
    // What typing needs at once is small; means and uncertainties bring their distributions along a moment later.
    import('../../../src/job/takenReading.ts').then(
      (module) => {
        this.#dimension.value = module.dimensionRead;
      },
      () => {},
    );
    // What was typed for one job is nothing to the next.
    effect(() => {
      void bench.laid.value;
      this.typing.forget();
    });
    // Undo, another tab or another job has changed the numbers beneath the draft: it starts again from them.
    effect(() => {
      const job = bench.job.value;
      const draft = this.typing.draft.peek();
      if (draft && !sameTexts(this.source.texts(job, draft.id), draft.numbers)) this.typing.begin(draft.id);
    });
  }

  get form(): ReadonlySignal<ReadingForm | null> {
    return this.source.form;
  }

  get unit(): JobUnit {
    return this.#bench.job.value.unit ?? 'mm';
  }

  /** Tells how wide the sheet is, so that the drawing fits it. */
  lay(paper: FormPaper): void {
    this.source.lay(paper);
  }

  /** What the text in the field reads, in the unit of the reading; null while it reads nothing. */
  typedValue(): number | null {
    const draft = this.typing.draft.value;
    const row = draft && this.#rowOf(draft.id);
    const bench = this.#measuring();
    if (!row || !bench || draft.text.trim() === '') return null;
    const typed = valueTyped({ id: row.facts.id, spec: row.facts.spec, texts: [] }, draft.text, bench);
    return 'value' in typed ? typed.value : null;
  }

  #measuring() {
    const callipers = this.source.facts.value?.callipers;
    return callipers && { unit: this.unit, callipers };
  }

  #rowsNow(): readonly Row[] {
    const facts = this.source.facts.value;
    const bench = this.#measuring();
    if (!facts || !bench) return [];
    const job = this.#bench.job.value;
    return facts.readings.map((reading, k) => {
      const texts = this.source.texts(job, reading.id).map(String);
      const asked = { id: reading.id, spec: reading.spec, texts };
      const typed = texts.map((text) => valueTyped(asked, text, bench));
      const refusals = typed.map((one) => ('refused' in one ? one.refused : null));
      const dimension = this.#dimension.value?.(asked, bench) ?? null;
      const left = this.typing.left.value.get(reading.id);
      return {
        facts: reading,
        number: k + 1,
        texts,
        refusals,
        sizes: typed.flatMap((one) =>
          'value' in one
            ? [correctedReading({ ...reading.spec, id: reading.id }, one.value, bench.callipers).value]
            : [],
        ),
        dimension,
        left,
        state: readingState({
          taken: texts.length,
          times: reading.times,
          optional: reading.optional,
          refused: left !== undefined || refusals.some((why) => why !== null),
          remarks: dimension?.remarks ?? [],
        }),
      };
    });
  }

  #rowOf(id: string): Row | undefined {
    return this.rows.peek().find(({ facts }) => facts.id === id);
  }

  /** Digits of one number are one step to undo, and one that is given up is no step at all. */
  #book(): TypingBook {
    return {
      reading: (id) => {
        const facts = this.#rowOf(id)?.facts;
        return facts && { name: facts.name, times: facts.times, single: facts.jaw === 'entered' };
      },
      texts: (id) => this.source.texts(this.#bench.job.peek(), id),
      refusal: (id, text) => {
        const [row, bench] = [this.#rowOf(id), this.#measuring()];
        if (!row || !bench) return null;
        const typed = valueTyped({ id, spec: row.facts.spec, texts: row.texts }, text, bench);
        return 'refused' in typed ? typed.refused : null;
      },
      next: (from) => {
        const progress = this.rows
          .peek()
          .map((row) => ({ id: row.facts.id, times: row.facts.times, taken: row.texts.length }));
        return nextReading(progress, from);
      },
      put: ({ id, slot, counted, changed, original }, to, deed) => {
        const { history } = this.#bench;
        const name = this.#rowOf(id)?.facts.name ?? id;
        const what = `${this.source.told(name)}, number ${slot + 1} ${deed}`;
        if (changed && to === original && history.undoes.peek() === what) {
          history.undo();
          return false;
        }
        this.#bench.change(
          what,
          (job) => {
            const after = exchanged(this.source.texts(job, id), slot, counted, to);
            return this.source.withTexts(job, id, after);
          },
          changed,
        );
        return true;
      },
    };
  }
}
