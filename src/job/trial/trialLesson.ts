import { type CauseRow, lengthOf } from '../../fit/trialBelief.ts';
import { calibrationDoubts } from '../../printer/calibrationDoubts.ts';
import { knownOf, withKnown } from '../../printer/parameters.ts';
import { printerProfileSchema } from '../../printer/profile.ts';
import { type Known, PARAMETERS, type Parameter, type PrinterProfile } from '../../printer/types.ts';
import { printedAlike } from '../feltLadder.ts';
import type { LadderLesson } from '../ladderLesson.ts';
import { membersOf } from '../members.ts';
import { plan } from '../plan.ts';
import type { Prepared } from '../prepare.ts';
import { profileHash } from '../profileHash.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { knowledge, type TrialKnowledge, trialsOf } from './belief.ts';
import { causeRow } from './causeRow.ts';

/** What a trial did to the profile of the printer, or why nothing. */
export type TrialLesson = LadderLesson;

/** Lets the printer's profile learn from a trial. `record` is the last trial of the job, or one that is not in it yet.
 *
 *  The profile goes from what it was without this trial to what all trials of the job leave believed of the printer, the
 *  machine's part of the blame taken out; trials before it are heard again with it, from the profile before the first,
 *  so that a machine read wrongly is not taken for the printer's doing over and over. Where another job taught the profile
 *  in between, this trial alone is added to what it is now.
 *
 *  A record that has taught already goes back to the profile there was before and teaches again, unless the profile has
 *  changed since. The plan of this job counts from the profile without it (`priorProfile`), so that nothing counts twice. */
export function trialLesson(prepared: Prepared, record: TrialRecord): TrialLesson {
  if (!printedAlike(prepared, record)) return { learnt: false, because: 'another-printer' };
  const { learnt: taught, ...unheard } = record;
  if (taught !== undefined && taught.after !== profileHash(prepared.printer))
    return { learnt: false, because: 'changed-since' };
  const before = taught?.before ?? prepared.printer;

  const then: Prepared = { ...prepared, printer: before };
  const isThis = ({ date, made }: TrialRecord) => date === record.date && made === record.made;
  const earlier = trialsOf(prepared).filter((one, k, all) => !(k === all.length - 1 && isThis(one)));
  const records = record.inspected === undefined && record.felt === undefined ? [] : [unheard];
  const { heights } = plan(membersOf(without(then))[0]!.prepared);
  const together = knowledge(then, heights, [...earlier, ...records]);
  // Heard already means taught by others since: what they left is where this one starts.
  const learnt = together?.heard.size === 0 ? together : knowledge(then, heights, records);
  if (records.length === 0 || learnt === undefined) return { learnt: false, because: 'says-nothing' };

  const after = taughtBy(learnt, before, prepared.callipers.name);
  if (profileHash(after) === profileHash(before)) return { learnt: false, because: 'says-nothing' };
  return printerProfileSchema.safeParse(after).success
    ? { learnt: true, before, after }
    : { learnt: false, because: 'out-of-range' };
}

/** The job without its trials. */
const without = (prepared: Prepared): Prepared => ({
  ...prepared,
  job: { ...prepared.job, trials: undefined },
});

/** Changes below this part of a parameter's doubt are rounding. */
const MOVED = 1e-9;

/** The profile with the parameters that are believed now. Without a calibration each doubt stands for itself. With one, what
 *  hangs together goes on doing so. What coupon and machine share because the same callipers read them is left to the
 *  callipers: the parameters are learnt as these callipers read them, so that the error goes on cancelling in the next
 *  job, and each cause keeps its name with what is then left of it. */
function taughtBy(
  { printer, belief }: TrialKnowledge,
  before: PrinterProfile,
  callipers: string,
): PrinterProfile {
  const { calibration } = before;
  const same = calibration?.callipers === callipers;
  const sharedId = (id: string) => (same ? id : `coupon:${id}`);
  const apart = new Set(same ? calibration.shared.map(({ id }) => id) : []);
  const all = PARAMETERS.map((parameter) => parameterRow(printer, parameter, callipers));
  const rows = all.map((row) => Object.fromEntries(Object.entries(row).filter(([id]) => !apart.has(id))));
  const covary = (a: CauseRow, b: CauseRow): number => {
    const variance = (row: CauseRow) => lengthOf(belief, row).variance;
    return (variance(added(a, b)) - variance(a) - variance(b)) / 2;
  };
  const shared = (calibration?.shared ?? []).map((cause) => {
    const source: CauseRow = { [sharedId(cause.id)]: 1 };
    const tied = rows.map((row) => covary(row, source));
    return { cause, tied, shift: tied.map((by, k) => by + (same ? cause.shift[k]! : 0)) };
  });
  const covariance = rows.map((row, i) =>
    rows.map((other, j) => shared.reduce((left, { tied }) => left - tied[i]! * tied[j]!, covary(row, other))),
  );
  const known = PARAMETERS.flatMap((parameter, k): [Parameter, Known][] => {
    const was = knownOf(before, parameter);
    const value = knownOf(printer, parameter).value + lengthOf(belief, rows[k]!).mean;
    const u = Math.sqrt(
      shared.reduce((sum, { shift }) => sum + shift[k]! ** 2, Math.max(0, covariance[k]![k]!)),
    );
    const unmoved = Math.abs(value - was.value) <= MOVED * was.u && Math.abs(u - was.u) <= MOVED * was.u;
    return unmoved ? [] : [[parameter, { value, u }]];
  });
  if (known.length === 0) return before;
  const updated = withKnown(before, Object.fromEntries(known));
  if (!calibration) return updated;
  return {
    ...updated,
    calibration: {
      ...calibration,
      covariance,
      shared: shared.map(({ cause, shift }) => ({ ...cause, shift })),
    },
  };
}

/** One parameter as a length made of the causes of its doubt. */
function parameterRow(printer: PrinterProfile, parameter: Parameter, callipers: string): CauseRow {
  const id = `printer:${parameter}`;
  const { u } = knownOf(printer, parameter);
  const cause = { ...{ id, label: id, u }, ...({ distribution: 'normal', dof: Infinity } as const) };
  const { contributors, sensitivity } = calibrationDoubts(
    { sensitivity: { [id]: 1 }, contributors: [cause] },
    printer,
    callipers,
  );
  return causeRow(contributors.map((each) => ({ cause: each, by: sensitivity[each.id] ?? 0 })));
}

const added = (a: CauseRow, b: CauseRow): CauseRow => {
  const sum: Record<string, number> = { ...a };
  for (const [id, by] of Object.entries(b)) sum[id] = (sum[id] ?? 0) + by;
  return sum;
};
