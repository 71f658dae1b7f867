import { batch, computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Problem } from '../../../src/job/problem.ts';
import { profileText } from '../../../src/printer/profileText.ts';
import type { PrinterProfile } from '../../../src/printer/types.ts';
import type { Bench } from '../../bench/bench.ts';
import type { Drawer } from '../../drawer/drawer.ts';
import { withProfile } from '../../drawer/withProfile.ts';
import type { CalibrationFacts } from '../../spine/tasks/calibrate.ts';
import { couponDay } from './couponDay.ts';
import type { CouponTexts } from './couponKey.ts';

/** Features read from which on it is worth to see what they come to. */
const ENOUGH = 3;
/** Rest after the last digit before the readings are worked out, ms. */
const REST = 700;

/** What the findings follow. */
interface Followed {
  readonly profile: ReadonlySignal<PrinterProfile | null>;
  readonly texts: ReadonlySignal<CouponTexts>;
  /** Features with a number. */
  readonly read: ReadonlySignal<number>;
  /** Day the coupon was printed, as told. */
  readonly printed: ReadonlySignal<string>;
  /** Whether anybody looks at what they come to. */
  readonly shown: ReadonlySignal<boolean>;
}

/** What the readings of a coupon come to, worked out whenever they rest. */
export class CouponFindings {
  readonly #bench: Bench;
  readonly #of: Followed;
  readonly #found = signal<CalibrationFacts | null>(null);
  readonly #trouble = signal<readonly Problem[]>([]);
  readonly #foundOf = signal<{ readonly texts: CouponTexts; readonly printed: string } | null>(null);
  #rest: ReturnType<typeof setTimeout> | undefined;
  /** They are of an earlier state of the readings. */
  readonly stale: ReadonlySignal<boolean>;
  /** What the profile would be is what the job carries already. */
  readonly isIn: ReadonlySignal<boolean>;

  constructor(bench: Bench, of: Followed) {
    this.#bench = bench;
    this.#of = of;
    this.stale = computed(
      () =>
        this.#found.value !== null &&
        (this.#foundOf.value?.texts !== of.texts.value || this.#foundOf.value.printed !== of.printed.value),
    );
    this.isIn = computed(() => {
      const [found, profile] = [this.#found.value, of.profile.value];
      return found !== null && profile !== null && profileText(found.report.profile) === profileText(profile);
    });
    effect(() => {
      const [texts, printed] = [of.texts.value, of.printed.value];
      const { callipers, unit } = bench.job.value;
      void JSON.stringify([callipers, unit]);
      clearTimeout(this.#rest);
      if (of.shown.value && of.read.value >= ENOUGH)
        this.#rest = setTimeout(() => void this.#calibrate(texts, printed), REST);
    });
  }

  get found(): ReadonlySignal<CalibrationFacts | null> {
    return this.#found;
  }

  /** Why the readings come to nothing. */
  get trouble(): ReadonlySignal<readonly Problem[]> {
    return this.#trouble;
  }

  /** They were another printer's. */
  forget(): void {
    this.#found.value = null;
    this.#trouble.value = [];
  }

  /** Puts what was found into the job and the drawer. Undo takes it back from the job, what comes back from both. */
  async putIn(drawer: Drawer): Promise<(() => Promise<void>) | null> {
    const [found, before] = [this.#found.peek(), this.#of.profile.peek()];
    if (!found || !before) return null;
    const { profile } = found.report;
    const idOf = (wanted: PrinterProfile) =>
      drawer.printers.peek().find((one) => profileText(one.profile) === profileText(wanted))?.id;
    const id = idOf(before);
    this.#bench.change('printer calibrated', (job) => withProfile(job, profile));
    await drawer.keepPrinter(profile, Date.now(), id);
    return async () => {
      this.#bench.change('calibration taken back', (job) => withProfile(job, before));
      await drawer.keepPrinter(before, Date.now(), idOf(profile));
    };
  }

  async #calibrate(texts: CouponTexts, printed: string): Promise<void> {
    const profile = this.#of.profile.peek();
    if (profile === null) return;
    const job = this.#bench.job.peek();
    const date = couponDay(texts, profile, printed);
    try {
      const found = await this.#bench.spine.ask('the calibration', (spine) =>
        spine.calibrate(job, profile, texts, date),
      );
      if (this.#of.texts.peek() !== texts || this.#of.printed.peek() !== printed) return;
      batch(() => {
        this.#trouble.value = 'kind' in found ? found.problems : [];
        this.#found.value = 'kind' in found ? null : found;
        this.#foundOf.value = { texts, printed };
      });
    } catch {
      // Said by the page; the next reading asks again.
    }
  }
}
