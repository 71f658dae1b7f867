import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { CouponTexts } from './couponKey.ts';

/** Something done to the readings of a coupon. */
export interface CouponStep {
  /** All readings as they were. */
  readonly before: CouponTexts;
  /** In the words of a bench: "3: 3.85". */
  readonly what: string;
  /** Feature it is about; null for all of them. */
  readonly feature: string | null;
}

/** Steps kept. */
const MOST = 200;

/** What was done to the readings of a coupon since the page was opened, to be taken back one by one: they are no part of a
 *  job, whose own undo does not reach them. */
export class CouponSteps {
  readonly #past = signal<readonly CouponStep[]>([]);
  /** What would be taken back; null for nothing. */
  readonly last: ReadonlySignal<string | null> = computed(() => this.#past.value.at(-1)?.what ?? null);

  /** Notes a step. One that goes on with the last, as the next digit of a number, begins where that one began. False where it came
   *  back to that, and so is none. */
  note(step: CouponStep, after: CouponTexts, goesOn: boolean): boolean {
    const past = this.#past.peek();
    const last = goesOn ? past.at(-1) : undefined;
    const begun = last ? { ...step, before: last.before } : step;
    const earlier = last ? past.slice(0, -1) : past;
    const isStep = !same(begun.before, after);
    this.#past.value = isStep ? [...earlier, begun].slice(-MOST) : earlier;
    return isStep;
  }

  /** Takes the last step off the list; undefined where there is none. */
  pop(): CouponStep | undefined {
    const last = this.#past.peek().at(-1);
    if (last) this.#past.value = this.#past.peek().slice(0, -1);
    return last;
  }

  forget(): void {
    this.#past.value = [];
  }
}

const same = (a: CouponTexts, b: CouponTexts): boolean => {
  const sorted = (texts: CouponTexts) =>
    JSON.stringify(Object.entries(texts).sort(([one], [other]) => (one < other ? -1 : 1)));
  return sorted(a) === sorted(b);
};
