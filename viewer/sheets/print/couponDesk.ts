import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { callipersOf } from '../../../src/job/callipersOf.ts';
import { couponReading } from '../../../src/job/coupon/couponReading.ts';
import type { Problem } from '../../../src/job/problem.ts';
import { valueTyped } from '../../../src/job/valueTyped.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import type { Bench } from '../../bench/bench.ts';
import type { CouponFacts } from '../../spine/tasks/coupon.ts';
import type { TakenFile } from '../../spine/tasks/takeAway.ts';
import { exchanged } from '../measure/draft.ts';
import { nextReading } from '../measure/nextReading.ts';
import { Typing, type TypingBook } from '../measure/typing.ts';
import { couponDay } from './couponDay.ts';
import { CouponFindings } from './couponFindings.ts';
import {
  browserStore,
  type CouponTexts,
  couponKey,
  keepTexts,
  keptTexts,
  type SmallStore,
} from './couponKey.ts';
import { type CouponRow, couponRows } from './couponRows.ts';
import { type CouponStep, CouponSteps } from './couponSteps.ts';
import { otherCallipers } from './otherCallipers.ts';
import { profileOf } from './profileOf.ts';

/** Size of a field on the drawing, mm of the sheet. */
export const COUPON_FIELD = [16.5, 8.5] as const;
/** What is done to the readings of all features at once. */
const ANEW = { feature: null, goesOn: false } as const;

/** The coupon of the job's printer: its drawing, the readings typed on it, what they come to. Readings are no part of a job;
 *  they are kept by printer in this browser until they are in a profile, and after. */
export class CouponDesk {
  readonly #bench: Bench;
  readonly #store: SmallStore | undefined;
  readonly #facts = signal<CouponFacts | null>(null);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #texts = signal<CouponTexts>({});
  readonly #unkept = signal(false);
  readonly #otherCallipers = signal('');
  #key = '';
  #drawnFor = '';

  /** Day the coupon was printed, YYYY-MM-DD; blank for today. */
  readonly printed: Signal<string> = signal('');
  /** The number being typed. */
  readonly typing: Typing;
  readonly #steps = new CouponSteps();
  /** Whether the coupon is unfolded: it is drawn only then. */
  readonly isOpen: Signal<boolean> = signal(false);
  readonly rows: ReadonlySignal<readonly CouponRow[]>;
  /** The feature at hand: being typed, typed last, or the first that lacks numbers. */
  readonly row: ReadonlySignal<CouponRow | null>;
  readonly profile: ReadonlySignal<PrinterProfile | null>;
  /** What the readings come to. */
  readonly findings: CouponFindings;

  constructor(bench: Bench, store: SmallStore | undefined) {
    this.#bench = bench;
    this.#store = store;
    this.typing = new Typing(this.#book());
    this.profile = computed(() => profileOf(bench.job.value));
    const shown = computed(
      () => this.#facts.value !== null && this.isOpen.value && bench.sheet.value === 'print',
    );
    const { profile, read, printed } = this;
    this.findings = new CouponFindings(bench, { profile, texts: this.#texts, read, printed, shown });
    this.rows = computed(() => this.#rowsNow());
    this.row = computed(() => {
      const rows = this.rows.value;
      const open = rows.find(({ state }) => state === 'missing' || state === 'few');
      return rows.find(({ feature: { id } }) => id === this.typing.current.value) ?? open ?? rows[0] ?? null;
    });
    effect(() => {
      const profile = this.profile.value;
      const key = profile === null ? '' : couponKey(profile);
      if (key === this.#key) return;
      this.#key = key;
      batch(() => this.#turnTo(profile));
    });
    effect(() => {
      // After a fault of the worker the next outcome is the sign to ask again.
      void bench.outcome.value;
      const profile = this.profile.value;
      if (!this.isOpen.value || bench.sheet.value !== 'print' || profile === null) return;
      const drawnFor = JSON.stringify([profile.layer, profile.firstLayer, profile.lineWidth, profile.bed]);
      if (drawnFor === this.#drawnFor) return;
      this.#drawnFor = drawnFor;
      void this.#askFacts(profile, drawnFor);
    });
  }

  get facts(): ReadonlySignal<CouponFacts | null> {
    return this.#facts;
  }

  /** Why there is no coupon for this printer. */
  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  /** That the last file was read with other callipers than the job has, and which; empty where it was not. */
  get otherCallipers(): ReadonlySignal<string> {
    return this.#otherCallipers;
  }

  /** The browser keeps nothing: the readings last as long as the page. */
  get unkept(): ReadonlySignal<boolean> {
    return this.#unkept;
  }

  /** Features with a number. */
  readonly read: ReadonlySignal<number> = computed(
    () => Object.values(this.#texts.value).filter(({ length }) => length > 0).length,
  );

  /** Day on which the coupon was printed, as told or as it is taken to be, YYYY-MM-DD. */
  readonly day: ReadonlySignal<string> = computed(() => {
    const profile = this.profile.value;
    return profile ? couponDay(this.#texts.value, profile, this.printed.value) : this.printed.value;
  });

  get unit(): 'mm' | 'in' {
    return this.#bench.job.value.unit ?? 'mm';
  }

  /** What can be taken back; null for nothing. */
  get takesBack(): ReadonlySignal<string | null> {
    return this.#steps.last;
  }

  /** Takes back the last reading, or what else was done to them; gives the feature it was about. */
  takeBack(): string | null {
    const draft = this.typing.draft.peek();
    if (draft && draft.counted === draft.original && draft.text !== String(draft.original ?? '')) {
      // What is no number yet is the last thing done.
      this.typing.giveUp();
      return null;
    }
    const step = this.#steps.pop();
    this.typing.said.value = step ? `Taken back: ${step.what}.` : 'Nothing to take back.';
    if (!step) return null;
    this.#keep(step.before);
    this.typing.changedBeneath(step.feature);
    return step.feature;
  }

  /** Puts readings from a file in the place of those there are of the same features; gives what is wrong with it. */
  async takeFile(file: File): Promise<readonly Problem[]> {
    const profile = this.profile.peek();
    if (profile === null) return [];
    const refuse = (value: string): readonly Problem[] => [
      { code: 'file_unread', field: file.name, value, allowed: 'a table or JSON of readings, at most 1 MiB' },
    ];
    if (file.size > 2 ** 20) return refuse('too large');
    try {
      const text = await file.text();
      const unit = this.#bench.job.peek().unit ?? 'mm';
      const read = await this.#bench.spine.ask('readings', (spine) =>
        spine.couponReadings(profile, file.name, text, unit),
      );
      if ('kind' in read) return read.problems;
      this.typing.forget();
      this.#otherCallipers.value = otherCallipers(read.callipers, this.#measuring().callipers);
      this.#do({ ...this.#texts.peek(), ...read.texts }, `readings from ${file.name}`);
      const count = Object.keys(read.texts).length;
      this.typing.said.value = `${count} ${count === 1 ? 'feature' : 'features'} read from ${file.name}.`;
      return [];
    } catch {
      return refuse('could not be read');
    }
  }

  /** Takes all readings away; what there was, for whoever wants it back. */
  clear(): CouponTexts {
    const before = this.#texts.peek();
    this.typing.forget();
    this.#do({}, 'all readings taken away');
    return before;
  }

  restore(texts: CouponTexts): void {
    this.#do(texts, 'readings brought back');
  }

  files(): Promise<
    readonly TakenFile[] | { readonly kind: 'refused'; readonly problems: readonly Problem[] }
  > {
    const profile = this.profile.peek();
    if (profile === null) return Promise.resolve([]);
    return this.#bench.spine.ask('the coupon', (spine) => spine.couponFiles(profile));
  }

  #measuring() {
    const { callipers, unit = 'mm' } = this.#bench.job.value;
    return { unit, callipers: callipersOf((callipers ?? {}) as never, unit, () => {}) };
  }

  #rowsNow(): readonly CouponRow[] {
    const facts = this.#facts.value;
    if (!facts) return [];
    const doubtful = this.findings.stale.value ? [] : (this.findings.found.value?.report.doubtful ?? []);
    return couponRows(facts.features, this.#texts.value, doubtful, this.#measuring(), this.typing.left.value);
  }

  #rowOf(id: string): CouponRow | undefined {
    return this.rows.peek().find(({ feature }) => feature.id === id);
  }

  #book(): TypingBook {
    return {
      reading: (id) => {
        const feature = this.#rowOf(id)?.feature;
        return feature && { name: String(feature.number), times: feature.times, single: false };
      },
      texts: (id) => this.#texts.peek()[id] ?? [],
      refusal: (id, text) => {
        const row = this.#rowOf(id);
        if (!row) return null;
        const typed = valueTyped(couponReading(row.feature, row.texts), text, this.#measuring());
        return 'refused' in typed ? typed.refused : null;
      },
      next: (from) => {
        const progress = this.rows
          .peek()
          .map(({ feature: { id, times }, texts }) => ({ id, times, taken: texts.length }));
        return nextReading(progress, from);
      },
      put: ({ id, slot, counted, changed, original }, to) => {
        const { [id]: before = [], ...others } = this.#texts.peek();
        const after = exchanged(before, slot, counted, to).map(String);
        const number = this.#rowOf(id)?.feature.number ?? id;
        const what =
          to === undefined
            ? `${number}: ${original ?? ''} taken away`
            : `${number}: ${to}${original === undefined ? '' : ` for ${original}`}`;
        const texts = after.length > 0 ? { ...others, [id]: after } : others;
        return this.#do(texts, what, { feature: id, goesOn: changed });
      },
    };
  }

  /** Puts other readings in the place of those there are, so that it can be taken back. False where that brought back what
   *  there was before the step that this one goes on with. */
  #do(
    texts: CouponTexts,
    what: string,
    { feature, goesOn }: Pick<CouponStep, 'feature'> & { readonly goesOn: boolean } = ANEW,
  ): boolean {
    const isStep = this.#steps.note({ before: this.#texts.peek(), what, feature }, texts, goesOn);
    this.#keep(texts);
    return isStep;
  }

  #keep(texts: CouponTexts): void {
    this.#texts.value = texts;
    this.#unkept.value = !keepTexts(this.#store, this.#key, texts);
  }

  /** Another printer: its coupon, its readings. */
  #turnTo(profile: PrinterProfile | null): void {
    this.typing.forget();
    this.findings.forget();
    this.#steps.forget();
    this.#otherCallipers.value = '';
    this.printed.value = '';
    const there = profile?.calibration?.readings ?? {};
    const calibrated = Object.entries(there).map(([id, all]): [string, string[]] => [id, all.map(String)]);
    this.#texts.value = keptTexts(this.#store, this.#key) ?? Object.fromEntries(calibrated);
  }

  async #askFacts(profile: PrinterProfile, drawnFor: string): Promise<void> {
    try {
      const facts = await this.#bench.spine.ask('the coupon', (spine) => spine.coupon(profile, COUPON_FIELD));
      if (this.#drawnFor !== drawnFor) return;
      this.#trouble.value = 'kind' in facts ? facts.problems : [];
      this.#facts.value = 'kind' in facts ? null : facts;
    } catch {
      // The page says itself that the worker broke.
      if (this.#drawnFor === drawnFor) this.#drawnFor = '';
    }
  }
}

const desks = new WeakMap<Bench, CouponDesk>();

/** The coupon desk of a bench, the same one each time. */
export function couponDesk(bench: Bench): CouponDesk {
  const there = desks.get(bench) ?? new CouponDesk(bench, browserStore());
  desks.set(bench, there);
  return there;
}
