import { momentsWithin } from './trialInterval.ts';

/** What is believed of causes of doubt: their errors in standard uncertainties, as a joint normal law. Before anything
 *  is seen each has mean 0 and variance 1 and none hangs on another. */
export interface TrialBelief {
  readonly ids: readonly string[];
  readonly mean: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** A length as a sum of causes: change in mm per standard uncertainty of each, by id; those not named have none. */
export type CauseRow = Readonly<Record<string, number>>;

/** Causes that are looked at but not taught: their mean and variance stay as they are. */
export type Held = (id: string) => boolean;

const nobody: Held = () => false;

/** The belief with causes of which nothing is known but their standard uncertainty; those it has already are passed over. */
export function withCauses(belief: TrialBelief, ids: Iterable<string>): TrialBelief {
  const fresh = [...new Set(ids)].filter((id) => !belief.ids.includes(id));
  if (fresh.length === 0) return belief;
  const size = belief.ids.length + fresh.length;
  return {
    ids: [...belief.ids, ...fresh],
    mean: [...belief.mean, ...fresh.map(() => 0)],
    covariance: Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (_, j) => belief.covariance[i]?.[j] ?? (i === j ? 1 : 0)),
    ),
  };
}

/** The belief without causes that will not be met again, such as the scatter of one print. */
export function withoutCauses({ ids, mean, covariance }: TrialBelief, gone: Held): TrialBelief {
  const kept = ids.flatMap((id, k) => (gone(id) ? [] : [k]));
  return {
    ids: kept.map((k) => ids[k]!),
    mean: kept.map((k) => mean[k]!),
    covariance: kept.map((i) => kept.map((j) => covariance[i]![j]!)),
  };
}

export const nothingBelieved: TrialBelief = { ids: [], mean: [], covariance: [] };

/** Mean and variance of a length, mm and mm^2. Causes the belief does not know count with mean 0 and variance 1.
 *  @example lengthOf(nothingBelieved, { a: 0.3, b: 0.4 }) // => mean: 0, variance: 0.25 */
export function lengthOf(belief: TrialBelief, row: CauseRow): { mean: number; variance: number } {
  const effects = belief.ids.map((id) => row[id] ?? 0);
  const known = new Set(belief.ids);
  const others = Object.entries(row).reduce((sum, [id, by]) => (known.has(id) ? sum : sum + by ** 2), 0);
  const towards = product(belief.covariance, effects);
  return { mean: dot(effects, belief.mean), variance: Math.max(0, dot(effects, towards)) + others };
}

/** The belief once a length is read off: `value`, mm. What blurs the reading is among the causes of `row`, so that the
 *  length itself is exact. One step of linear normal updating (Kalman 1960).
 *  @example a length of two equal causes read as 0.2 // => each is believed to have done 0.1 of it */
export const afterReading = (
  belief: TrialBelief,
  row: CauseRow,
  value: number,
  held: Held = nobody,
): TrialBelief => told(belief, row, () => ({ mean: value, variance: 0 }), held);

/** Something known of a length that is no normal law: it lies between two ends, mm, one of which may be infinite. A tight fit
 *  lies below its window, a right one inside, a loose one above; an error that is somewhere in a range lies in that. */
export interface Between {
  readonly row: CauseRow;
  readonly within: readonly [number, number];
  /** The normal law that stands for it in the belief: its precision, and precision times mean. */
  readonly precision: number;
  readonly pull: number;
}

/** A length of which it has not been heard yet between what ends it lies. */
export const unheard = (row: CauseRow, within: readonly [number, number]): Between => ({
  ...{ row, within },
  ...{ precision: 0, pull: 0 },
});

/** An error that is somewhere in a range, as everybody has it before anything is seen: mean 0 and variance 1.
 *  Half-width in standard uncertainties: JCGM 100:2008, 4.3.7. */
export const somewhere = (id: string): Between => ({
  row: { [id]: 1 },
  within: [-Math.sqrt(3), Math.sqrt(3)],
  ...{ precision: 1, pull: 0 },
});

/** Rounds until what is known of each length agrees with all the rest, at most; and what counts as agreeing, part of a
 *  standard deviation. */
const ROUNDS = 30;
const AGREED = 1e-6;

/** The belief once lengths are known to lie between ends, and what stands for each in it then. Each in turn is taken out,
 *  and put back as the normal law that gives the length the mean and variance it has when the rest is cut off at its
 *  ends; round after round until nothing moves (expectation propagation, Minka 2001). Exact for one such length in a
 *  normal belief, or one in a range that is read; where several meet, mean and deviation are good to 0.12
 *  deviations (tests/fit/trialBelief.test.ts). With causes held, one round without looking back. */
export function afterFeelings(
  belief: TrialBelief,
  lengths: readonly Between[],
  held?: Held,
): { readonly belief: TrialBelief; readonly lengths: readonly Between[] } {
  let now = belief;
  const known = [...lengths];
  for (let round = 0; round < (held ? 1 : ROUNDS); round++) {
    let moved = 0;
    for (const [k, length] of known.entries()) {
      // What is held may not be taken out and put back.
      if (held && length.precision > 0) continue;
      const { mean, variance } = lengthOf(now, length.row);
      if (!(variance > NOTHING)) continue;
      const rest = 1 / variance - length.precision;
      if (!(rest > 1e-6 / variance)) continue;
      const middle = (mean / variance - length.pull) / rest;
      const cut = momentsWithin(middle, 1 / Math.sqrt(rest), ...length.within);
      if (!(cut.variance > NOTHING)) continue;
      known[k] = {
        ...length,
        precision: 1 / cut.variance - rest,
        pull: cut.mean / cut.variance - middle * rest,
      };
      now = told(now, length.row, () => cut, held ?? nobody);
      moved = Math.max(
        moved,
        Math.abs(cut.mean - mean) / Math.sqrt(variance),
        Math.abs(cut.variance / variance - 1),
      );
    }
    if (moved < AGREED) break;
  }
  return { belief: now, lengths: known };
}

/** A length's variance below which nothing can be learnt from it, mm^2. */
const NOTHING = 1e-18;

/** The belief once mean and variance of one length are known anew: every cause moves with it as it hangs on it. Causes
 *  that are held keep mean and variance, and their doubt still blurs what is seen (Schmidt 1966, "consider" states). */
function told(
  belief: TrialBelief,
  row: CauseRow,
  anew: (before: { mean: number; variance: number }) => { mean: number; variance: number },
  held: Held,
): TrialBelief {
  const all = withCauses(belief, Object.keys(row));
  const effects = all.ids.map((id) => row[id] ?? 0);
  const towards = product(all.covariance, effects);
  const variance = dot(effects, towards);
  if (!(variance > NOTHING)) return all;
  const before = { mean: dot(effects, all.mean), variance };
  const after = anew(before);
  const by = (after.mean - before.mean) / variance;
  const less = (variance - after.variance) / variance ** 2;
  const stays = all.ids.map(held);
  return {
    ids: all.ids,
    mean: all.mean.map((mean, k) => (stays[k] ? mean : mean + by * towards[k]!)),
    covariance: all.covariance.map((line, i) =>
      line.map((value, j) => (stays[i] && stays[j] ? value : value - less * towards[i]! * towards[j]!)),
    ),
  };
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, k) => sum + value * b[k]!, 0);

const product = (matrix: readonly (readonly number[])[], vector: readonly number[]): number[] =>
  matrix.map((line) => dot(line, vector));

/** The doubts of a belief as independent causes again: columns l with sum of l l^T = covariance, in the order of the
 *  ids. Cause k is what cause k leaves open once those before it are known. */
export function columnsOf({ ids, covariance }: TrialBelief): readonly (readonly number[])[] {
  const left = covariance.map((line) => [...line]);
  return ids.map((_, k) => {
    const variance = left[k]![k]!;
    // What is left of rounding is nothing.
    if (!(variance > 1e-12)) return ids.map(() => 0);
    const column = ids.map((_, i) => (i < k ? 0 : left[i]![k]! / Math.sqrt(variance)));
    for (let i = k; i < ids.length; i++)
      for (let j = k; j < ids.length; j++) left[i]![j]! -= column[i]! * column[j]!;
    return column;
  });
}
