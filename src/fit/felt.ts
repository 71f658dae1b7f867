import { feltLikelihood } from './feltLikelihood.ts';
import { type FeltRecord, steppedOf } from './feltRecord.ts';

/** What a verdict says of the shift all clearances of a ladder have in common. */
export interface FeltShift {
  /** Mean of the shift after the verdict, mm: the machine and the print leave this much more room than expected. */
  readonly shift: number;
  /** Its standard uncertainty, mm; that from size to size is not in it. */
  readonly u: number;
  /** One rung was called two things, or one called tight is looser than one called loose: nobody can mean both. */
  readonly contradictory: boolean;
  /** Tight before right before loose, as the rungs go; prints that scatter by more than a step may break it. */
  readonly inOrder: boolean;
}

/** Expected clearance of one interface, by what was felt. */
export interface FeltClearance {
  /** Expected clearance when it is drawn at that size, mm. */
  readonly at: (drawn: number) => number;
  /** Standard uncertainty of it, mm, without that from print to print. */
  readonly u: number;
}

/** Half-width of the grid in standard uncertainties of the prior; what lies beyond holds less than 1e-15 of it. */
const REACH = 8;
/** Cells in the shorter of prior and likelihood, where sums of normal curves are good to ten digits already; and the
 *  fewest and most of the grid. */
const FINENESS = 4;
const [FEWEST, MOST] = [120, 40_000];

/** Posterior of the one shift that all clearances of the ladder have in common: prior normal about 0 with the doubt there
 *  was when it was printed, likelihood as in `feltLikelihood`, by Bayes on a grid. Before there is a verdict, the prior.
 *  @example nothing felt, doubt 0.05 // => shift: 0, u: 0.05 */
export function feltShift(record: FeltRecord): FeltShift {
  const known = shifts.get(record);
  if (known) return known;
  const shift = posterior(record);
  shifts.set(record, shift);
  return shift;
}

/** A plan asks for the same shift many times over. */
const shifts = new WeakMap<FeltRecord, FeltShift>();

function posterior(record: FeltRecord): FeltShift {
  const { u: prior } = record.doubt;
  const order = orderOf(record);
  const { at, grain, reach } = feltLikelihood(record);
  if (!(prior > 0) || grain === Infinity) return { shift: 0, u: Math.max(0, prior), ...order };

  const half = REACH * prior + reach;
  const cells = Math.min(
    MOST,
    Math.max(FEWEST, 2 * Math.ceil((half * FINENESS) / Math.min(grain, prior) / 2)),
  );
  const step = (2 * half) / cells;
  const logs = new Float64Array(cells + 1);
  let peak = -Infinity;
  for (let i = 0; i <= cells; i++) {
    const shift = -half + i * step;
    logs[i] = at(shift) - (shift / prior) ** 2 / 2;
    if (logs[i]! > peak) peak = logs[i]!;
  }
  // Nothing that could be would be felt so, as too tight where there is no lower limit: then it says nothing.
  if (peak === -Infinity) return { shift: 0, u: prior, ...order, contradictory: true };
  let [weight, first, second] = [0, 0, 0];
  for (let i = 0; i <= cells; i++) {
    const shift = -half + i * step;
    const part = Math.exp(logs[i]! - peak);
    weight += part;
    first += part * shift;
    second += part * shift ** 2;
  }
  const mean = first / weight;
  return { shift: mean, u: Math.sqrt(Math.max(0, second / weight - mean ** 2)), ...order };
}

/** The verdict by itself, as one reading of the shift with a normal error: what has to be added to the prior to come to the
 *  posterior, by the precisions of the two. A verdict that left the doubt as it was has an infinite variance.
 *  mm and mm^2.
 *  @example prior 0.05, posterior 0.03 +- 0.04 // => shift: 0.0833, variance: 0.00444 */
export function feltObservation(record: FeltRecord): { readonly shift: number; readonly variance: number } {
  const prior = record.doubt.u ** 2;
  const { shift, u } = feltShift(record);
  const precision = 1 / u ** 2 - 1 / prior;
  if (!(precision > 1e-9 / prior)) return { shift: 0, variance: Infinity };
  return { shift: shift / u ** 2 / precision, variance: 1 / precision };
}

/** Expected clearance of an interface by the ladder alone, however the printer's profile and the readings have changed
 *  since: what a printer has learnt from a ladder therefore never counts twice. The rungs are joined by straight lines,
 *  which go on beyond the first and the last. Undefined before there is a verdict, on this ladder or on the one it was
 *  drawn after, and for an interface the ladder did not step.
 *  @example rungs drawn 3.9 and 4.0 with clearance 0.1 and 0.0, shift 0.02 // => at(3.92): 0.1 */
export function feltClearance(record: FeltRecord, id: string): FeltClearance | undefined {
  if ((record.felt === undefined && !record.earlier) || !steppedOf(record).includes(id)) return undefined;
  const { shift, u } = feltShift(record);
  const points = record.rungs
    .map(({ drawn, clearance }) => [drawn[id]!, clearance[id]!] as const)
    .sort((a, b) => a[0] - b[0])
    .filter(([size], k, all) => k === 0 || size > all[k - 1]![0]);
  const at = (drawn: number): number => {
    const upper = points.findIndex(([size]) => size >= drawn);
    const k = Math.min(points.length - 1, Math.max(1, upper === -1 ? points.length - 1 : upper));
    const [[a, from], [b, to]] = [points[k - 1]!, points[k]!];
    return from + ((drawn - a) / (b - a)) * (to - from) + shift;
  };
  return { at, u };
}

function orderOf({ felt }: FeltRecord): Pick<FeltShift, 'contradictory' | 'inOrder'> {
  if (felt === undefined) return { contradictory: false, inOrder: true };
  const right = [...felt.right, ...(felt.best === undefined ? [] : [felt.best])];
  const before = (tighter: readonly number[], looser: readonly number[]) =>
    tighter.length === 0 || looser.length === 0 || Math.max(...tighter) < Math.min(...looser);
  const shared = felt.tight.some((k) => right.includes(k)) || felt.loose.some((k) => right.includes(k));
  return {
    contradictory: shared || !before(felt.tight, felt.loose),
    inOrder: before(felt.tight, right) && before(right, felt.loose) && before(felt.tight, felt.loose),
  };
}
