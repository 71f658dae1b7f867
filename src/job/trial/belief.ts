import {
  afterFeelings,
  afterReading,
  type Between,
  type CauseRow,
  columnsOf,
  lengthOf,
  nothingBelieved,
  somewhere,
  type TrialBelief,
  unheard,
  withCauses,
  withoutCauses,
} from '../../fit/trialBelief.ts';
import type { Contributor } from '../../measure/types.ts';
import type { PrinterProfile } from '../../printer/types.ts';
import type { CauseEffect } from '../clearanceCauses.ts';
import { printedAlike } from '../feltLadder.ts';
import type { Heights } from '../heights.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { causeRow } from './causeRow.ts';
import { priorProfile } from './priorProfile.ts';
import { sightsOf } from './sights.ts';

/** What trials leave believed of printer and machine. */
export interface TrialKnowledge {
  /** The profile it starts from: today's, less what that learnt from these trials. */
  readonly printer: PrinterProfile;
  readonly belief: TrialBelief;
  /** Causes of doubt the belief is about, by id. */
  readonly causes: ReadonlyMap<string, Contributor>;
  /** Trials that the profile it starts from has learnt from, which therefore teach nothing of the printer. */
  readonly heard: ReadonlySet<TrialRecord>;
  /** `columnsOf` the belief. */
  readonly columns: readonly (readonly number[])[];
}

/** Trials of a job that were printed as it would be printed now, and that were read or felt. */
export const trialsOf = (prepared: Prepared): readonly TrialRecord[] =>
  (prepared.job.trials ?? []).filter(
    (record) =>
      printedAlike(prepared, record) && (record.inspected !== undefined || record.felt !== undefined),
  );

/** What trials say of the causes of doubt, by Bayes; undefined where they say nothing.
 *
 *  Prior: every cause of doubt in printer profile and readings of the machine, as the plan has them today, but for what
 *  the profile learnt from these very trials. So a size that was read anew, or a printer whose coupon was, counts as it
 *  now stands, and nothing counts twice. Student errors count as normal ones of their variance.
 *  Likelihood, print after print: what callipers read of it, with an error that machine, coupon and print share where
 *  one pair read them; what was felt, as below, inside or above the window there was. The scatter of each print is a
 *  cause of its own that is forgotten with it. What was filed after it was read was not felt as it was printed.
 *  `records`: which trials, in order; `heights` as the plan has them. */
export function knowledge(
  prepared: Prepared,
  heights: Heights,
  records: readonly TrialRecord[] = trialsOf(prepared),
): TrialKnowledge | undefined {
  if (records.length === 0) return undefined;
  const { printer, heard } = priorProfile(prepared.printer, records);
  const causes = new Map<string, Contributor>();
  let belief = nothingBelieved;
  let ranges: readonly Between[] = [];
  for (const record of records) {
    const { seen, felt, fresh: ownOfPrint } = sightsOf({ ...prepared, printer }, record, heights, causes);
    const held = heard.has(record) ? (id: string) => /^(printer|coupon):/.test(id) : undefined;
    const fresh = [...causes.values()].filter(({ id }) => !belief.ids.includes(id));
    belief = withCauses(
      belief,
      fresh.map(({ id }) => id),
    );
    ranges = [
      ...ranges,
      ...fresh.filter(({ distribution }) => distribution === 'rectangular').map(({ id }) => somewhere(id)),
    ];
    for (const { row, value } of seen) belief = afterReading(belief, row, value, held);
    const lengths = [...ranges, ...felt.map(({ row, within }) => unheard(row, within))];
    const settled = afterFeelings(belief, lengths, held);
    ranges = settled.lengths.slice(0, ranges.length);
    belief = withoutCauses(settled.belief, (id) => ownOfPrint.has(id));
  }
  return belief.ids.length === 0 ? undefined : { printer, belief, causes, heard, columns: columnsOf(belief) };
}

/** What trials change about a clearance: how much larger it is than printer and readings say, mm, and by what causes it
 *  is still doubtful. Causes the trials did not touch come back as they are. */
export function corrected(
  { belief, causes, columns }: Pick<TrialKnowledge, 'belief' | 'causes' | 'columns'>,
  effects: readonly CauseEffect[],
): { readonly shift: number; readonly effects: readonly CauseEffect[] } {
  const touched = effects.filter(({ cause }) => causes.has(cause.id));
  const row = causeRow(touched);
  const left = belief.ids.flatMap((id, k): CauseEffect[] => {
    const by = belief.ids.reduce((sum, other, i) => sum + (row[other] ?? 0) * columns[k]![i]!, 0);
    if (by === 0) return [];
    const { label } = causes.get(id)!;
    return [{ cause: { id, label, u: 1, distribution: 'normal', dof: Infinity }, by }];
  });
  return {
    shift: lengthOf(belief, row).mean,
    effects: [...left, ...effects.filter(({ cause }) => !causes.has(cause.id))],
  };
}

/** Mean and standard uncertainty of a part of a clearance, mm. */
export function partOf(belief: TrialBelief, row: CauseRow): { readonly mean: number; readonly u: number } {
  const { mean, variance } = lengthOf(belief, row);
  return { mean, u: Math.sqrt(variance) };
}
