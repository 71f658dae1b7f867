import { batch, computed, effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { callipersOf } from '../../../src/job/callipersOf.ts';
import { couponReading } from '../../../src/job/coupon/couponReading.ts';
import type { Problem } from '../../../src/job/problem.ts';
import { valueTyped } from '../../../src/job/valueTyped.ts';
import { profileText } from '../../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import type { Bench } from '../../bench/bench.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import { withProfile } from '../../drawer/withProfile.ts';
import type { CalibrationFacts } from '../../spine/tasks/calibrate.ts';
import type { CouponFacts } from '../../spine/tasks/coupon.ts';
import type { TakenFile } from '../../spine/tasks/takeAway.ts';
import { begun, type Draft, exchanged, type Text, wanted } from '../measure/draft.ts';
import { nextReading, turnIsOver } from '../measure/nextReading.ts';
import { couponDay } from './couponDay.ts';
import {
  browserStore,
  type CouponTexts,
  couponKey,
  keepTexts,
  keptTexts,
  type SmallStore,
} from './couponKey.ts';
import { type CouponRow, couponRows } from './couponRows.ts';
import { CouponSteps } from './couponSteps.ts';
import { otherCallipers } from './otherCallipers.ts';
import { profileOf } from './profileOf.ts';

/** Size of a field on the drawing, mm of the sheet. */
export const COUPON_FIELD = [16.5, 8.5] as const;
/** Features read from which on it is worth to see what they come to. */
const ENOUGH = 3;
/** Rest after the last digit before the readings are worked out, and before a text that is none is said to be so, ms. */
const REST = 700;

/** The coupon of the job's printer: its drawing, the readings typed on it, what they come to. Readings are no part of a job;
 *  they are kept by printer in this browser until they are in a profile, and after. */
export class CouponDesk {
  readonly #bench: Bench;
  readonly #store: SmallStore | undefined;
  readonly #facts = signal<CouponFacts | null>(null);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #texts = signal<CouponTexts>({});
  readonly #draft = signal<Draft | null>(null);
  readonly #current = signal<string | null>(null);
  readonly #said = signal('');
  readonly #found = signal<CalibrationFacts | null>(null);
  readonly #foundTrouble = signal<readonly Problem[]>([]);
  readonly #foundOf = signal<{ readonly texts: CouponTexts; readonly printed: string } | null>(null);
  readonly #unkept = signal(false);
  readonly #otherCallipers = signal('');
  #key = '';
  #drawnFor = '';
  #wasComplete = false;
  /** Counts the numbers begun. */
  #go = 0;
  #pause: ReturnType<typeof setTimeout> | undefined;
  #rest: ReturnType<typeof setTimeout> | undefined;

  /** Day the coupon was printed, YYYY-MM-DD; blank for today. */
  readonly printed: Signal<string> = signal('');
  readonly #steps = new CouponSteps();
  /** Whether the coupon is unfolded: it is drawn only then. */
  readonly isOpen: Signal<boolean> = signal(false);
  readonly rows: ReadonlySignal<readonly CouponRow[]>;
  /** The feature at hand: being typed, typed last, or the first that lacks numbers. */
  readonly row: ReadonlySignal<CouponRow | null>;
  readonly profile: ReadonlySignal<PrinterProfile | null>;
  /** What the readings come to is of an earlier state of them. */
  readonly stale: ReadonlySignal<boolean>;

  constructor(bench: Bench, store: SmallStore | undefined) {
    this.#bench = bench;
    this.#store = store;
    this.profile = computed(() => profileOf(bench.job.value));
    this.rows = computed(() => this.#rowsNow());
    this.row = computed(() => {
      const rows = this.rows.value;
      const open = rows.find(({ state }) => state === 'missing' || state === 'few');
      return rows.find(({ feature: { id } }) => id === this.#current.value) ?? open ?? rows[0] ?? null;
    });
    this.stale = computed(
      () =>
        this.#found.value !== null &&
        (this.#foundOf.value?.texts !== this.#texts.value ||
          this.#foundOf.value.printed !== this.printed.value),
    );
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
    effect(() => {
      const texts = this.#texts.value;
      const printed = this.printed.value;
      const { callipers, unit } = bench.job.value;
      void JSON.stringify([callipers, unit]);
      const ready = this.#facts.value !== null && this.isOpen.value && bench.sheet.value === 'print';
      clearTimeout(this.#rest);
      if (ready && this.read.value >= ENOUGH)
        this.#rest = setTimeout(() => void this.#calibrate(texts, printed), REST);
    });
  }

  get facts(): ReadonlySignal<CouponFacts | null> {
    return this.#facts;
  }

  /** Why there is no coupon for this printer. */
  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  get draft(): ReadonlySignal<Draft | null> {
    return this.#draft;
  }

  get said(): ReadonlySignal<string> {
    return this.#said;
  }

  get found(): ReadonlySignal<CalibrationFacts | null> {
    return this.#found;
  }

  /** Why the readings come to nothing. */
  get foundTrouble(): ReadonlySignal<readonly Problem[]> {
    return this.#foundTrouble;
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

  /** What the profile would be is what the job carries already. */
  readonly isIn: ReadonlySignal<boolean> = computed(() => {
    const [found, profile] = [this.#found.value, this.profile.value];
    return found !== null && profile !== null && profileText(found.report.profile) === profileText(profile);
  });

  open(id: string, slot?: number): void {
    const draft = this.#draft.peek();
    if (draft?.id === id && slot === undefined) return;
    this.#close();
    const row = this.#rowOf(id);
    this.#wasComplete = row !== undefined && row.texts.length >= row.feature.times;
    this.#current.value = id;
    this.#begin(id, slot);
  }

  leave(id: string): void {
    if (this.#draft.peek()?.id === id) this.#close();
  }

  type(text: string): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    clearTimeout(this.#pause);
    this.#draft.value = { ...draft, text, rested: false };
    const readable = this.judged(text) === null;
    this.#hold(wanted({ ...draft, text }, readable));
    if (!readable)
      this.#pause = setTimeout(() => {
        const now = this.#draft.peek();
        if (now) this.#draft.value = { ...now, rested: true };
      }, REST);
  }

  /** Enter: takes the number and says where to go on, null for here. */
  enter(): string | null {
    const draft = this.#draft.peek();
    const row = draft && this.#rowOf(draft.id);
    if (!draft || !row) return null;
    clearTimeout(this.#pause);
    if (draft.text.trim() === '') {
      if (draft.original !== undefined) {
        this.takeAway();
        return null;
      }
      return this.#next(draft.id);
    }
    if (this.judged(draft.text) !== null) {
      this.#draft.value = { ...draft, rested: true };
      return null;
    }
    this.#hold(wanted(draft, true));
    const taken = this.#texts.peek()[draft.id] ?? [];
    const { times, number } = row.feature;
    this.#said.value = `${number}: ${draft.text.trim()} taken, ${taken.length} of ${Math.max(times, taken.length)}.`;
    const over = turnIsOver(taken.length, times, { wasComplete: this.#wasComplete, single: false });
    const next = over ? this.#next(draft.id) : null;
    if (over && next === null) this.#said.value += ' Every reading is there.';
    if (next === null) this.#begin(draft.id);
    return next;
  }

  step(by: 1 | -1): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    const texts = this.#texts.peek()[draft.id] ?? [];
    const slot = draft.slot + by;
    if (slot >= 0 && slot <= texts.length) this.#begin(draft.id, slot);
  }

  takeAway(): void {
    const draft = this.#draft.peek();
    if (!draft || draft.counted === undefined) return;
    this.#hold(undefined);
    this.#wasComplete = false;
    this.#said.value = `${String(draft.original ?? draft.counted)} taken away.`;
    this.#begin(draft.id);
  }

  giveUp(): void {
    const draft = this.#draft.peek();
    if (!draft) return;
    this.#hold(draft.original);
    this.#begin(draft.id);
  }

  /** What can be taken back; null for nothing. */
  get takesBack(): ReadonlySignal<string | null> {
    return this.#steps.last;
  }

  /** Takes back the last reading, or what else was done to them; gives the feature it was about. */
  takeBack(): string | null {
    const typing = this.#draft.peek();
    if (typing && typing.counted === typing.original && typing.text !== String(typing.original ?? '')) {
      // What is no number yet is the last thing done.
      this.giveUp();
      return null;
    }
    const step = this.#steps.pop();
    if (!step) {
      this.#said.value = 'Nothing to take back.';
      return null;
    }
    const draft = this.#draft.peek();
    this.#keep(step.before);
    this.#wasComplete = false;
    this.#said.value = `Taken back: ${step.what}.`;
    if (step.feature !== null) this.#current.value = step.feature;
    if (draft) this.#begin(draft.id);
    return step.feature;
  }

  /** Why a text is no reading of the feature at hand; null when it is one. */
  judged(text: string): string | null {
    const row = this.#draft.peek() && this.#rowOf(this.#draft.peek()!.id);
    if (!row) return null;
    const typed = valueTyped(couponReading(row.feature, []), text, this.#measuring());
    return 'refused' in typed ? typed.refused : null;
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
      this.#draft.value = null;
      this.#otherCallipers.value = otherCallipers(read.callipers, this.#measuring().callipers);
      this.#do({ ...this.#texts.peek(), ...read.texts }, `readings from ${file.name}`);
      const count = Object.keys(read.texts).length;
      this.#said.value = `${count} ${count === 1 ? 'feature' : 'features'} read from ${file.name}.`;
      return [];
    } catch {
      return refuse('could not be read');
    }
  }

  /** Takes all readings away; what there was, for whoever wants it back. */
  clear(): CouponTexts {
    const before = this.#texts.peek();
    this.#draft.value = null;
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

  /** Puts what was found into the job and the drawer. Undo takes it back from the job, what comes back from both. */
  async putIn(drawer: Drawer): Promise<(() => Promise<void>) | null> {
    const [found, before] = [this.#found.peek(), this.profile.peek()];
    if (!found || !before) return null;
    const { profile } = found.report;
    const text = profileText(before);
    const id = drawer.printers.peek().find((one) => profileText(one.profile) === text)?.id;
    this.#bench.change('printer calibrated', (job) => withProfile(job, profile));
    await drawer.keepPrinter(profile, Date.now(), id);
    return async () => {
      this.#bench.change('calibration taken back', (job) => withProfile(job, before));
      const now = drawer.printers.peek().find((one) => profileText(one.profile) === profileText(profile))?.id;
      await drawer.keepPrinter(before, Date.now(), now);
    };
  }

  #measuring() {
    const { callipers, unit = 'mm' } = this.#bench.job.value;
    return { unit, callipers: callipersOf((callipers ?? {}) as never, unit, () => {}) };
  }

  #rowsNow(): readonly CouponRow[] {
    const facts = this.#facts.value;
    if (!facts) return [];
    const doubtful = this.stale.value ? [] : (this.#found.value?.report.doubtful ?? []);
    return couponRows(facts.features, this.#texts.value, doubtful, this.#measuring());
  }

  #rowOf(id: string): CouponRow | undefined {
    return this.rows.peek().find(({ feature }) => feature.id === id);
  }

  #next(from: string): string | null {
    const progress = this.rows
      .peek()
      .map(({ feature: { id, times }, texts }) => ({ id, times, taken: texts.length }));
    return nextReading(progress, from);
  }

  /** Puts a text, or none, where the one of the draft is counted. */
  #hold(to: Text | undefined): void {
    const draft = this.#draft.peek();
    if (!draft || to === draft.counted) return;
    const { [draft.id]: before = [], ...others } = this.#texts.peek();
    const after = exchanged(before, draft.slot, draft.counted, to).map(String);
    this.#draft.value = { ...draft, counted: to, changed: true };
    const texts = after.length > 0 ? { ...others, [draft.id]: after } : others;
    this.#do(texts, this.#stepWords(draft, to), draft.id);
  }

  /** Puts other readings in the place of those there are, so that it can be taken back. */
  #do(texts: CouponTexts, what: string, feature: string | null = null): void {
    if (feature === null) this.#go++;
    this.#steps.note({ before: this.#texts.peek(), what, feature, go: this.#go }, texts);
    this.#keep(texts);
  }

  #stepWords({ id, original }: Draft, to: Text | undefined): string {
    const number = this.#rowOf(id)?.feature.number ?? id;
    if (to === undefined) return `${number}: ${original ?? ''} taken away`;
    return `${number}: ${to}${original === undefined ? '' : ` for ${original}`}`;
  }

  #begin(id: string, slot?: number): void {
    this.#go++;
    this.#draft.value = begun(id, this.#texts.peek()[id] ?? [], false, slot);
  }

  #keep(texts: CouponTexts): void {
    this.#texts.value = texts;
    this.#unkept.value = !keepTexts(this.#store, this.#key, texts);
  }

  #close(): void {
    clearTimeout(this.#pause);
    this.#draft.value = null;
  }

  /** Another printer: its coupon, its readings. */
  #turnTo(profile: PrinterProfile | null): void {
    this.#close();
    this.#current.value = null;
    this.#found.value = null;
    this.#foundTrouble.value = [];
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

  async #calibrate(texts: CouponTexts, printed: string): Promise<void> {
    const profile = this.profile.peek();
    if (profile === null) return;
    const job = this.#bench.job.peek();
    const date = couponDay(texts, profile, printed);
    try {
      const found = await this.#bench.spine.ask('the calibration', (spine) =>
        spine.calibrate(job, profile, texts, date),
      );
      if (this.#texts.peek() !== texts || this.printed.peek() !== printed) return;
      batch(() => {
        this.#foundTrouble.value = 'kind' in found ? found.problems : [];
        this.#found.value = 'kind' in found ? null : found;
        this.#foundOf.value = { texts, printed };
      });
    } catch {
      // Said by the page; the next reading asks again.
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
