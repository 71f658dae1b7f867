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
  /** Tells one go from the next: the digits of a number are typed in one. */
  readonly go: number;
}

/** Steps kept. */
const MOST = 200;

/** What was done to the readings of a coupon since the page was opened, to be taken back one by one: they are no part of a
 *  job, whose own undo does not reach them. */
export class CouponSteps {
  readonly #past = signal<readonly CouponStep[]>([]);
  /** What would be taken back; null for nothing. */
  readonly last: ReadonlySignal<string | null> = computed(() => this.#past.value.at(-1)?.what ?? null);

  /** Notes a step. One of the same go goes on where the last one began, and is none where it came back to that. */
  note(step: CouponStep, after: CouponTexts): void {
    const past = this.#past.peek();
    const last = past.at(-1);
    const isOn = last !== undefined && last.go === step.go && last.feature === step.feature;
    const begun = isOn ? { ...step, before: last.before } : step;
    const earlier = isOn ? past.slice(0, -1) : past;
    this.#past.value = same(begun.before, after) ? earlier : [...earlier, begun].slice(-MOST);
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
