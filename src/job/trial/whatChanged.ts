import { Remembered } from '../../remembered/remembered.ts';
import { idOf, membersOf, nameOf } from '../members.ts';
import { type Plan, plan } from '../plan.ts';
import type { Prepared } from '../prepare.ts';
import { because } from './because.ts';
import { knowledge, trialsOf } from './belief.ts';
import { priorProfile } from './priorProfile.ts';
import { triedMeetings } from './sights.ts';

/** A size that is drawn otherwise because of what trials taught. */
export interface TrialChange {
  /** Interface, as in the result. */
  readonly id: string;
  readonly name: string;
  /** Drawn without the trials and with them, mm. */
  readonly before: number;
  readonly after: number;
  /** "felt tight and read 0.08 larger than expected: ...", no full stop. */
  readonly because: string;
}

/** Changes smaller than this no print shows, mm. */
const SHOWS = 0.005;

/** What trials changed about the sizes that are drawn, and why: the plan without them, from the printer profile as it was
 *  before it learnt from them, against the plan as it is. Empty without trials. Throws `Refused` as `plan` does. */
export function whatChanged(
  prepared: Prepared,
  known: Remembered = new Remembered(),
): readonly TrialChange[] {
  const records = trialsOf(prepared);
  if (records.length === 0) return [];
  const { printer } = priorProfile(prepared.printer, records);
  const untried: Prepared = { ...prepared, printer, job: { ...prepared.job, trials: undefined } };
  const without = membersOf(untried).map((one) => plan(one.prepared, known));
  return membersOf(prepared).flatMap(({ member, prepared: own }, k) => {
    const [was, is] = [without[k] as Plan, plan(own, known)];
    const learnt = knowledge(own, is.heights);
    if (learnt === undefined) return [];
    return is.interfaces.flatMap((one): TrialChange[] => {
      const [before, after] = [was.drawn[one.id]!, one.drawn];
      if (Math.abs(after - before) < SHOWS) return [];
      const id = idOf(member, one.id);
      const meeting = triedMeetings(untried, { sizes: { [id]: sizeNow(one) } }, is.heights)[0]!;
      return [
        {
          id,
          name: nameOf(member, one.name),
          before,
          after,
          because: because(prepared, records, learnt, meeting),
        },
      ];
    });
  });
}

const sizeNow = (one: Plan['interfaces'][number]) => ({
  ...{ drawn: one.drawn, predicted: one.predicted, clearance: one.clearance },
  ...{ window: [one.window.lo, one.window.hi] as [number, number], aim: one.clearance },
  doubt: { printer: 0, machine: 0, spread: 1 },
});
