import { feltClearance, feltObservation, feltShift } from '../fit/felt.ts';
import { steppedOf } from '../fit/feltRecord.ts';
import { predictedSize } from '../printer/behaviour.ts';
import { learn } from '../printer/learn.ts';
import { knownOf, withKnown } from '../printer/parameters.ts';
import { printerProfileSchema } from '../printer/profile.ts';
import { PARAMETERS, type PrinterProfile } from '../printer/types.ts';
import { fitWith, measurandOf, plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import { profileHash } from './profileHash.ts';
import type { LadderRecord } from './schema.ts';

export { profileHash };

/** What a ladder did to the profile of the printer, or why nothing. */
export type LadderLesson =
  | { readonly learnt: true; readonly before: PrinterProfile; readonly after: PrinterProfile }
  | {
      readonly learnt: false;
      readonly because: 'another-printer' | 'says-nothing' | 'changed-since' | 'out-of-range';
    };

/** Lets the printer's profile learn from a ladder with a verdict. `prepared` is the part the ladder copies.
 *
 *  What counts is the clearance that was felt against the one this profile by itself expects of the same drawn size
 *  today, for the narrowest of the stepped sizes; the readings of the machine are doubt. Only the verdict speaks: the
 *  doubt there was when the ladder was printed is the profile's own and is not used a second time. The plan for the felt
 *  interface rests on the ladder alone, so that it does not hear the verdict again through the profile.
 *
 *  A verdict given anew for the same ladder takes the place of the first: the profile goes back to what it was before and
 *  learns again, unless it has changed since. */
export function ladderLesson(prepared: Prepared, record: LadderRecord): LadderLesson {
  const { printer, material } = prepared;
  if (
    record.printer !== printer.name ||
    record.material !== material.name ||
    Math.abs(record.layer - printer.layer) > 1e-9
  )
    return { learnt: false, because: 'another-printer' };
  const taught = record.learnt;
  if (taught !== undefined && taught.after !== profileHash(printer))
    return { learnt: false, because: 'changed-since' };
  const before = taught?.before ?? printer;

  const { job } = prepared;
  const plain: Prepared = {
    ...prepared,
    printer: before,
    job: { ...job, ladders: undefined, trials: undefined },
  };
  const planned = plan(plain);
  const width = (id: string): number => {
    const [lo, hi] = record.window[id]!;
    return lo === null || hi === null ? Infinity : hi - lo;
  };
  const [id] = [...steppedOf(record)].sort((a, b) => width(a) - width(b));
  const one = planned.interfaces.find((each) => each.id === id);
  const felt = id === undefined ? undefined : feltClearance(record, id);
  const seen = feltObservation(record);
  if (one === undefined || felt === undefined || seen.variance === Infinity)
    return { learnt: false, because: 'says-nothing' };

  // What is solid is tight when it prints large.
  const sense = one.kind === 'post' || one.kind === 'rib' ? -1 : 1;
  const { sensitivity } = predictedSize(
    one.drawn,
    measurandOf(one, planned.lay, before, planned.heights),
    before,
  );
  const byParameter = Object.fromEntries(
    Object.entries(sensitivity).map(([cause, effect]) => [cause, sense * effect]),
  );
  const expectedThen = felt.at(one.drawn) - feltShift(record).shift;
  const after = learn(
    before,
    byParameter,
    expectedThen + seen.shift - one.clearance,
    seen.variance + machineVariance(plain, planned, one.id),
  );
  return printerProfileSchema.safeParse(after).success
    ? { learnt: true, before, after }
    : { learnt: false, because: 'out-of-range' };
}

/** Variance of a clearance for every reason but the printer's parameters: readings of the machine, whole layers, mm^2. */
function machineVariance(plain: Prepared, planned: ReturnType<typeof plan>, id: string): number {
  const { calibration: _, ...profile } = plain.printer;
  const sure = withKnown(
    profile,
    Object.fromEntries(
      PARAMETERS.map((parameter) => [parameter, { value: knownOf(profile, parameter).value, u: 0 }]),
    ),
  );
  const { lines, contributors } = fitWith(plain, planned, { printer: sure });
  const { sensitivity } = lines.find((line) => line.id === id)!;
  return contributors.reduce((sum, cause) => sum + ((sensitivity[cause.id] ?? 0) * cause.u) ** 2, 0);
}
