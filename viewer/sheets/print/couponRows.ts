import { couponReading } from '../../../src/job/coupon/couponReading.ts';
import type { Bench } from '../../../src/job/takenReading.ts';
import { valueTyped } from '../../../src/job/valueTyped.ts';
import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import type { CouponTexts } from './couponKey.ts';

/** One feature of the coupon as the form shows it. */
export interface CouponRow {
  readonly feature: CouponFeature;
  readonly texts: readonly string[];
  /** What the usable texts read, mm. */
  readonly values: readonly number[];
  /** Why a text is none, by place; null for one that is. */
  readonly refusals: readonly (string | null)[];
  readonly state: 'missing' | 'few' | 'read' | 'doubtful' | 'refused';
}

/** Every feature with what was read of it, as typed; `doubtful` are those that do not fit the others, `left` texts that
 *  were left in their fields though they cannot be read. */
export function couponRows(
  features: readonly CouponFeature[],
  texts: CouponTexts,
  doubtful: readonly { readonly feature: string }[],
  bench: Bench,
  left: ReadonlyMap<string, string>,
): readonly CouponRow[] {
  const odd = new Set(doubtful.map(({ feature }) => feature));
  return features.map((feature) => {
    const own = texts[feature.id] ?? [];
    const typed = own.map((text) => valueTyped(couponReading(feature, own), text, bench));
    const refusals = typed.map((one) => ('refused' in one ? one.refused : null));
    const values = typed.flatMap((one) => ('value' in one ? [one.value] : []));
    return { feature, texts: own, values, refusals, state: stateOf() };

    function stateOf(): CouponRow['state'] {
      if (left.has(feature.id) || refusals.some((why) => why !== null)) return 'refused';
      if (own.length === 0) return 'missing';
      if (odd.has(feature.id)) return 'doubtful';
      return own.length < feature.times ? 'few' : 'read';
    }
  });
}
