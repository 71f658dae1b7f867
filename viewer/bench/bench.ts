import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { JobFile } from '../../src/job/schema.ts';
import type { Made, Outcome } from '../spine/answers.ts';
import { keepWorked, type SpineClient } from '../spine/spineClient.ts';
import type { History, JobHistory } from './jobHistory.ts';

/** The sheets of a job, as a workshop would have them. */
export const sheets = ['measure', 'fit', 'print', 'try'] as const;
export type SheetName = (typeof sheets)[number] | 'model';

/** The sheets of a job in their order: a refit begins with the model. */
export const sheetsOf = ({ family }: Pick<JobFile, 'family'>): readonly SheetName[] =>
  family === 'donor' ? ['model', ...sheets] : sheets;

/** Everything the page knows, as signals: the job with its history, what the worker last made of it, and where the person
 *  looks. One object, handed down by context. */
export class Bench {
  readonly history: JobHistory;
  readonly spine: SpineClient;
  /** What came back last, for whichever version of the job. */
  readonly outcome: ReadonlySignal<Outcome | null>;
  /** The last job that could be made; stays while readings are missing or wrong. */
  readonly made: ReadonlySignal<Made | null>;
  /** Whether what is shown is of an older version of the job. */
  readonly stale: ReadonlySignal<boolean>;
  readonly sheet: Signal<SheetName>;
  /** Counts up whenever another job is laid on the bench: what a component remembers of the last one is void then. */
  readonly laid: ReadonlySignal<number>;
  readonly #clear: () => void;
  /** Number of the finding whose balloon is picked, the same in list, drawing and picture; null for none. */
  readonly balloon: Signal<number | null> = signal(null);
  /** Id of the reading the person is led to, from the verdict or from a doubt; null again once its field has the cursor. */
  readonly reading: Signal<string | null> = signal(null);

  constructor(history: JobHistory, spine: SpineClient) {
    this.history = history;
    this.spine = spine;
    const latest = signal<{ readonly outcome: Outcome; readonly of: JobFile } | null>(null);
    const made = signal<Made | null>(null);
    this.outcome = computed(() => latest.value?.outcome ?? null);
    this.made = made;
    this.stale = computed(() => latest.value?.of !== history.job.value);
    this.sheet = signal<SheetName>('measure');
    const laid = signal(0);
    this.laid = laid;
    this.#clear = () => {
      latest.value = null;
      made.value = null;
      laid.value++;
    };
    keepWorked(history.job, spine, (outcome, of) => {
      latest.value = { outcome, of };
      if (outcome.kind === 'made') made.value = outcome;
    });
    // A balloon of a finding that is gone points nowhere.
    effect(() => {
      const picked = this.balloon.value;
      if (picked !== null && picked > (made.value?.result.findings.length ?? 0)) this.balloon.value = null;
    });
  }

  get job(): ReadonlySignal<JobFile> {
    return this.history.job;
  }

  /** Changes the job; `what` is what undo would call it. Digits typed after one another are `joined`. `change` is a rule that
   *  looks at nothing but the job it is given: where another tab has saved meanwhile, it is done again on that. */
  change(what: string, change: (job: JobFile) => JobFile, joined = false): void {
    this.history.step(what, change, joined);
  }

  /** Lays another job on the bench. What was made of the last one goes, for it is no older version of this one. */
  lay(history: History, sheet: SheetName = 'measure'): void {
    batch(() => {
      this.#clear();
      this.history.replace(history);
      this.sheet.value = sheet;
      this.balloon.value = null;
    });
  }
}

const context = createContext<Bench | null>(null);
export const BenchProvider = context.Provider;

/** The bench around a component. Throws `RangeError` outside of one. */
export function useBench(): Bench {
  const bench = useContext(context);
  if (!bench) throw new RangeError('useBench requires a BenchProvider around it');
  return bench;
}
