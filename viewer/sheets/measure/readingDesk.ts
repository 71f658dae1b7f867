import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { ReadingFacts } from '../../../src/job/jobFacts.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { dimensionRead } from '../../../src/job/takenReading.ts';
import { valueTyped } from '../../../src/job/valueTyped.ts';
import { correctedReading } from '../../../src/measure/correctedReading.ts';
import type { Callipers, Dimension } from '../../../src/measure/types.ts';
import type { FormPaper, ReadingForm } from '../../../src/output/readingForm/index.ts';
import type { Bench } from '../../bench/bench.ts';
import { begun, type Draft, exchanged, sameTexts, type Text, wanted } from './draft.ts';
import type { JobUnit } from './figures.ts';
import { nextReading, turnIsOver } from './nextReading.ts';
import { type ReadingState, readingState } from './readingState.ts';

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

/** How long typing must pause until what cannot be read is said to be so, ms. Shorter would nag between two digits. */
const PAUSE = 700;

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
  readonly #draft = signal<Draft | null>(null);
  readonly #left = signal<ReadonlyMap<string, string>>(new Map());
  readonly #current = signal<string | null>(null);
  readonly #said = signal('');
  #wasComplete = false;
  /** Numbers of the draft's reading as the draft left them. */
  #expected: readonly Text[] = [];
  #pause: ReturnType<typeof setTimeout> | undefined;

  /** Whether the readings are shown as a plain table instead of on the drawing. */
  readonly asTable: Signal<boolean> = signal(false);
  readonly rows: ReadonlySignal<readonly Row[]>;
  /** The row that the large panel is about: the one being typed, the last one typed, or the first that lacks numbers. */
  readonly row: ReadonlySignal<Row | null>;

  /** `sourceOf` is given what tells the text being typed. */
  constructor(bench: Bench, sourceOf: (typing: () => string | undefined) => S) {
    this.#bench = bench;
    this.source = sourceOf(() => this.#draft.value?.text);
    this.rows = computed(() => this.#rowsNow());
    this.row = computed(() => {
      const rows = this.rows.value;
      const open = rows.find(({ state }) => state !== 'spared' && state !== 'read');
      return rows.find(({ facts }) => facts.id === this.#current.value) ?? open ?? rows[0] ?? null;
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
      clearTimeout(this.#pause);
      this.#draft.value = null;
      this.#left.value = new Map();
      this.#current.value = null;
      this.#said.value = '';
    });
    // Undo, another tab or another job has changed the numbers beneath the draft: it starts again from them.
    effect(() => {
      const job = bench.job.value;
      const draft = this.#draft.peek();
      if (!draft) return;
      if (!sameTexts(this.source.texts(job, draft.id), this.#expected)) this.#begin(draft.id);
    });
  }

  get form(): ReadonlySignal<ReadingForm | null> {
    return this.source.form;
  }

  get draft(): ReadonlySignal<Draft | null> {
    return this.#draft;
  }

  /** What was done last, for those who hear the page. */
  get said(): ReadonlySignal<string> {
    return this.#said;
  }

  get unit(): JobUnit {
    return this.#bench.job.value.unit ?? 'mm';
  }

  /** Tells how wide the sheet is, so that the drawing fits it. */
  lay(paper: FormPaper): void {
    this.source.lay(paper);
  }

  /** The field of a reading has been entered: a new number, or `slot` to be corrected. */
  open(id: string, slot?: number): void {
    if (this.#draft.peek()?.id === id && slot === undefined) return;
    this.#close();
    const row = this.#rowOf(id);
    this.#wasComplete = row !== undefined && row.texts.length >= row.facts.times;
    this.#current.value = id;
    this.#begin(id, slot);
    const left = this.#left.peek().get(id);
    if (left !== undefined && slot === undefined) this.#forget(id, left);
  }

  /** The field has been left: what can be read has counted all along; what cannot stays in the field, marked. */
  leave(id: string): void {
    if (this.#draft.peek()?.id === id) this.#close();
  }

  /** The text of the field as it is now. */
  type(text: string): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    clearTimeout(this.#pause);
    this.#draft.value = { ...draft, text, rested: false };
    if (this.judged(text) === null) this.#write(text.trim());
    // A decimal sign on its way to its digit must not take the verdict away; only a pause does.
    else this.#pause = setTimeout(() => this.#rest(), PAUSE);
  }

  /** Enter: takes the number and says where to go on, null for here. */
  enter(): string | null {
    const draft = this.#draft.peek();
    const row = draft && this.#rowOf(draft.id);
    if (!draft || !row) return null;
    clearTimeout(this.#pause);
    const blank = draft.text.trim() === '';
    if (blank && draft.original !== undefined) {
      this.takeAway();
      return null;
    }
    if (blank) {
      this.#said.value = '';
      const next = this.#next(draft.id);
      if (next === null) this.#said.value = 'Every reading is there.';
      return next;
    }
    const refused = this.judged(draft.text);
    if (refused !== null) {
      this.#rest();
      return null;
    }
    this.#write(draft.text.trim());
    const taken = this.source.texts(this.#bench.job.peek(), draft.id);
    const { times, jaw, name } = row.facts;
    this.#said.value = `${name}: ${draft.text.trim()} taken, ${taken.length} of ${Math.max(times, taken.length)}.`;
    const single = jaw === 'entered';
    const over = turnIsOver(taken.length, times, { wasComplete: this.#wasComplete, single });
    const next = over ? this.#next(draft.id) : null;
    if (over && next === null) this.#said.value += ' Every reading is there.';
    if (next === null) this.#begin(draft.id);
    return next;
  }

  /** Goes to the number before or after the one in the field. */
  step(by: 1 | -1): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    const { id } = draft;
    const slot = draft.slot + by;
    this.#settle();
    const there = this.source.texts(this.#bench.job.peek(), id).length;
    if (slot >= 0 && slot <= there) this.#begin(id, slot);
  }

  /** Takes away the number in the field. */
  takeAway(): void {
    const draft = this.#draft.peek();
    if (draft?.original === undefined) return;
    const row = this.#rowOf(draft.id);
    this.#write(undefined, 'taken away');
    this.#said.value = `${row?.facts.name ?? ''}: ${draft.original} taken away.`;
    this.#wasComplete = false;
    this.#begin(draft.id);
  }

  /** Gives the typing up: the numbers are as they were before it. */
  giveUp(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#write(draft.original);
    this.#begin(draft.id);
  }

  /** Why a text is no reading of the current field; null when it is one. */
  judged(text: string): string | null {
    const id = this.#draft.peek()?.id;
    const row = id === undefined ? undefined : this.#rowOf(id);
    const bench = this.#measuring();
    if (!row || !bench) return null;
    const typed = valueTyped({ id: row.facts.id, spec: row.facts.spec, texts: [] }, text, bench);
    return 'refused' in typed ? typed.refused : null;
  }

  /** What the text in the field reads, in the unit of the reading; null while it reads nothing. */
  typedValue(): number | null {
    const draft = this.#draft.value;
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
      const left = this.#left.value.get(reading.id);
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

  #next(from: string): string | null {
    const progress = this.rows
      .peek()
      .map(({ facts: { id, times }, texts }) => ({ id, times, taken: texts.length }));
    return nextReading(progress, from);
  }

  #begin(id: string, slot?: number): void {
    clearTimeout(this.#pause);
    const single = this.#rowOf(id)?.facts.jaw === 'entered';
    this.#expected = this.source.texts(this.#bench.job.peek(), id);
    this.#draft.value = begun(id, this.#expected, single, slot);
  }

  /** Takes the draft at its word, as far as it has one. */
  #settle(): void {
    clearTimeout(this.#pause);
    const draft = this.#draft.peek();
    if (!draft || draft.text.trim() === '') return;
    this.#write(wanted(draft, this.judged(draft.text) === null));
  }

  #close(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#settle();
    const touched = draft.text !== String(draft.original ?? '');
    if (touched && draft.text.trim() === '') this.takeAway();
    else if (touched && this.judged(draft.text) !== null)
      this.#left.value = new Map(this.#left.peek()).set(draft.id, draft.text);
    this.#draft.value = null;
  }

  /** A text that was left behind goes back into its field. */
  #forget(id: string, text: string): void {
    const left = new Map(this.#left.peek());
    left.delete(id);
    this.#left.value = left;
    const draft = this.#draft.peek();
    if (draft) this.#draft.value = { ...draft, text, rested: true };
  }

  #rest(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#write(wanted(draft, this.judged(draft.text) === null));
    const now = this.#draft.peek();
    if (now) this.#draft.value = { ...now, rested: true };
  }

  /** Puts a text, or none, into the place of the draft. Digits of one number are one step to undo, and one that is given
   *  up is no step at all. */
  #write(text: Text | undefined, deed = 'read'): void {
    const draft = this.#draft.peek();
    const name = draft && this.#rowOf(draft.id)?.facts.name;
    if (!draft || !name || text === draft.counted) return;
    const { id, slot, counted, changed } = draft;
    const { history } = this.#bench;
    const what = `${this.source.told(name)}, number ${slot + 1} ${deed}`;
    this.#expected = exchanged(this.source.texts(this.#bench.job.peek(), id), slot, counted, text);
    const over = changed && text === draft.original && history.undoes.peek() === what;
    this.#draft.value = { ...draft, counted: text, changed: !over };
    if (over) history.undo();
    else
      this.#bench.change(
        what,
        (job) => {
          const texts = exchanged(this.source.texts(job, id), slot, counted, text);
          return this.source.withTexts(job, id, texts);
        },
        changed,
      );
  }
}
