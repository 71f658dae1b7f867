import { computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { filedAnew } from '../../../src/job/inspection/recordReadings.ts';
import type { Problem } from '../../../src/job/problem.ts';
import type { JobFile } from '../../../src/job/schema.ts';
import type { NextSize } from '../../../src/job/trial/changedSince.ts';
import { withTakenBack } from '../../../src/job/trial/takenBack.ts';
import type { FileTrial } from '../../../src/job/trial/withRecord.ts';
import type { Bench } from '../../bench/bench.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import type { TrialTold } from '../../spine/tasks/trial.ts';
import { ReadingDesk } from '../measure/readingDesk.ts';
import { draftFrom, type FeltDraft, type FeltLine, feltLines, nothingSaid, saidBy } from './feltDraft.ts';
import { Newest } from './newest.ts';
import { PrintSource } from './printSource.ts';
import { changedPrint, withFiledTexts } from './printTexts.ts';

/** What became of putting a print on record, or of taking it back. */
export type TrialAnswer =
  | { readonly kind: 'recorded'; readonly told: TrialTold }
  | { readonly kind: 'taken-back'; readonly index: number }
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] }
  | { readonly kind: 'failed' };

/** How sizes have changed since a print of the job. */
export interface Changes {
  /** Place of that print among the records, from 0. */
  readonly since: number;
  readonly sizes: readonly NextSize[];
}

/** Largest file of readings, bytes. */
const MOST_BYTES = 2 ** 20;

/** Rest after the last change before it is reckoned what changed since a print, ms: it takes as long as the part itself. */
const REST = 900;

/** The desk of sheet 4: the print that lies on the bench, what is said of it, and what earlier ones taught. Lives as long as
 *  the bench around it. */
export class TryDesk {
  readonly bench: Bench;
  readonly reading: ReadingDesk<PrintSource>;
  readonly #draft = signal<FeltDraft>(nothingSaid);
  readonly #answer = signal<TrialAnswer | null>(null);
  readonly #busy = signal(false);
  readonly #changes = signal<Changes | null>(null);
  /** Since which print changes are told, from 0; null for the last that was tried. */
  readonly since: Signal<number | null> = signal(null);
  readonly lines: ReadonlySignal<readonly FeltLine[]>;
  #draftKey: string | null = null;

  constructor(bench: Bench, drawer: Drawer) {
    this.bench = bench;
    this.reading = new ReadingDesk(bench, () => new PrintSource(bench));
    this.lines = computed(() => {
      const facts = this.print.facts.value;
      if (!facts) return [];
      const names = new Map(facts.readings.map(({ id, name }) => [id, name]));
      return feltLines(facts.groups, (id) => names.get(id) ?? id, this.#draft.value, facts.record);
    });
    effect(() => {
      void bench.laid.value;
      this.#answer.value = null;
      this.#changes.value = null;
      this.since.value = null;
    });
    // What is being said belongs to one print of one job, and a tab that is loaded again still knows it.
    effect(() => {
      const facts = this.print.facts.value;
      const key = facts && `fettle felt ${drawer.keeper.id.value} ${facts.index} ${facts.record.made}`;
      if (key === this.#draftKey) return;
      this.#draftKey = key;
      this.#draft.value = draftFrom(key === null ? null : remembered(key));
    });
    this.#tellChanges();
  }

  get print(): PrintSource {
    return this.reading.source;
  }

  get draft(): ReadonlySignal<FeltDraft> {
    return this.#draft;
  }

  /** What became of the last deed; null again once more is said. */
  get answer(): ReadonlySignal<TrialAnswer | null> {
    return this.#answer;
  }

  get busy(): ReadonlySignal<boolean> {
    return this.#busy;
  }

  get changes(): ReadonlySignal<Changes | null> {
    return this.#changes;
  }

  /** Changes what is being said. */
  say(change: (draft: FeltDraft) => FeltDraft): void {
    const draft = change(this.#draft.peek());
    this.#draft.value = draft;
    if (this.#draftKey !== null) remember(this.#draftKey, draft);
  }

  /** Notes that places have been filed or drilled; they are read anew. */
  noteFiled(ids: readonly string[], names: string): void {
    const facts = this.print.facts.peek();
    if (!facts) return;
    this.bench.change(`${names} filed`, (job) =>
      changedPrint(job, facts, (record) => filedAnew(record, ids)),
    );
  }

  /** Takes the readings of the print from a file, in one step; gives what is wrong with it. */
  async takeFile(file: File): Promise<readonly Problem[]> {
    const refuse = (value: string): readonly Problem[] => [
      { code: 'file_unread', field: file.name, value, allowed: 'a table or JSON of readings, at most 1 MiB' },
    ];
    if (file.size > MOST_BYTES) return refuse('too large');
    const [job, asked, laid] = [this.bench.job.peek(), this.print.asked(), this.bench.laid.peek()];
    try {
      const text = await file.text();
      const read = await this.bench.spine.look((spine) => spine.printReadings(job, asked, file.name, text));
      if ('kind' in read) return read.problems;
      const facts = this.print.facts.peek();
      if (!facts || laid !== this.bench.laid.peek()) return [];
      this.bench.change(`readings from ${file.name}`, (now) => withFiledTexts(now, facts, read.texts));
      return [];
    } catch {
      return refuse('could not be read');
    }
  }

  /** Puts what was said on record, with what the profile learns; one step to undo. */
  async putOnRecord(): Promise<void> {
    const job = this.bench.job.peek();
    const said = saidBy(this.#draft.peek(), this.lines.peek());
    const asked = this.print.asked();
    await this.#deed(async () => {
      const told = await this.bench.spine.ask('the trial', (spine) => spine.trial(job, asked, said));
      if ('kind' in told) return { kind: 'refused', problems: told.problems };
      this.bench.change(`print ${told.index + 1} put on record`, (now) => withTold(now, told));
      this.say(() => nothingSaid);
      this.print.which.value = 'open';
      this.print.day.value = '';
      return { kind: 'recorded', told };
    });
  }

  /** Takes back what was said last, as long as nothing rests on it. */
  async takeBack(): Promise<void> {
    const job = this.bench.job.peek();
    await this.#deed(async () => {
      const back = await this.bench.spine.ask('the last trial', (spine) => spine.takeTrialBack(job));
      if ('kind' in back) return { kind: 'refused', problems: back.problems };
      const index = back.index;
      this.bench.change(`what was said of print ${index + 1} taken back`, (now) =>
        orSame(now, () => withTakenBack(now, back, typeof now.printer === 'object')),
      );
      return { kind: 'taken-back', index };
    });
  }

  async #deed(deed: () => Promise<TrialAnswer>): Promise<void> {
    if (this.#busy.peek()) return;
    this.#busy.value = true;
    const laid = this.bench.laid.peek();
    const answer = await deed().catch((): TrialAnswer => ({ kind: 'failed' }));
    this.#busy.value = false;
    if (laid === this.bench.laid.peek()) this.#answer.value = answer;
  }

  #tellChanges(): void {
    const newest = new Newest<() => void>((take) => take());
    let timer: ReturnType<typeof setTimeout> | undefined;
    effect(() => {
      clearTimeout(timer);
      const { bench } = this;
      const job = bench.job.value;
      const trials = job.trials ?? [];
      const since = this.since.value ?? lastTried(trials);
      if (bench.sheet.value !== 'try' || bench.stale.value || since === null || since >= trials.length)
        return;
      const laid = bench.laid.peek();
      timer = setTimeout(() => {
        newest.ask(async () => {
          const sizes = await bench.spine.ask('what changed', (spine) => spine.changesSince(job, since));
          return () => {
            if (!('kind' in sizes) && laid === bench.laid.peek()) this.#changes.value = { since, sizes };
          };
        });
      }, REST);
    });
  }
}

/** The last print of which something was said; the last one where nothing was; null where there is none. */
function lastTried(trials: NonNullable<JobFile['trials']>): number | null {
  const tried = trials.findLastIndex(({ felt }) => felt !== undefined);
  return tried >= 0 ? tried : trials.length > 0 ? trials.length - 1 : null;
}

/** The job with a print on record and the profile it taught. A reading taken meanwhile stays. */
const withTold = (job: JobFile, told: TrialTold): JobFile => {
  const changed = changedPrint(job, told, ({ inspected }) => ({
    ...(told.record as FileTrial),
    ...(inspected && { inspected }),
  }));
  return changed === job || told.learnt === null
    ? changed
    : { ...changed, printer: told.learnt as NonNullable<JobFile['printer']> };
};

function orSame(job: JobFile, change: () => JobFile): JobFile {
  try {
    return change();
  } catch {
    // Somebody has put another print on record in another tab.
    return job;
  }
}

function remembered(key: string): string | null {
  try {
    return sessionStorage.getItem(key);
  } catch {
    return null;
  }
}

function remember(key: string, draft: FeltDraft): void {
  try {
    if (draft === nothingSaid) sessionStorage.removeItem(key);
    else sessionStorage.setItem(key, JSON.stringify(draft));
  } catch {
    // Storage forbidden or full: it is known until the page is left.
  }
}

const desks = new WeakMap<Bench, TryDesk>();

/** The desk of a bench, the same one each time. */
export function tryDesk(bench: Bench, drawer: Drawer): TryDesk {
  const there = desks.get(bench);
  if (there) return there;
  const desk = new TryDesk(bench, drawer);
  desks.set(bench, desk);
  return desk;
}
