import { printedAlike } from '../feltLadder.ts';
import { membersOf } from '../members.ts';
import { plan } from '../plan.ts';
import type { Prepared } from '../prepare.ts';
import type { TrialRecord } from '../trialSchema.ts';
import { knowledge, partOf } from './belief.ts';
import { causeRow } from './causeRow.ts';
import { triedMeetings } from './sights.ts';

/** A length that is not known for certain, mm. */
export interface Believed {
  readonly mean: number;
  readonly u: number;
}

/** What trials say of one clearance, mm: by how much it is larger than printer and readings lead to expect. */
export interface TrialEvidence {
  readonly shift: number;
  readonly u: number;
  /** How the shift splits: what the print is off, counted as clearance, and what the machine is. The two hang together,
   *  so that their doubts do not add up by squares to that of the shift. */
  readonly printer: Believed;
  readonly machine: Believed;
}

/** What one trial by itself says of an interface, ids as in the result: by Bayes from what printer and readings say apart
 *  from it. Other interfaces of the same print tell of the same printer and are heard too. The scatter of that print is
 *  not in it. Undefined where the trial says nothing at all, was printed otherwise, or knows no such interface.
 *  `earlier`: trials before it that it starts from; none unless given. */
export function trialEvidence(
  prepared: Prepared,
  record: TrialRecord,
  id: string,
  earlier: readonly TrialRecord[] = [],
): TrialEvidence | undefined {
  if (!printedAlike(prepared, record)) return undefined;
  const before = earlier.filter((one) => printedAlike(prepared, one));
  const heights = plan(membersOf(prepared)[0]!.prepared).heights;
  const learnt = knowledge(prepared, heights, [...before, record]);
  if (learnt === undefined) return undefined;
  const meeting = triedMeetings({ ...prepared, printer: learnt.printer }, record, heights).find(
    (one) => one.id === id,
  );
  if (meeting === undefined) return undefined;
  const { mean: shift, u } = partOf(learnt.belief, causeRow(meeting.causes));
  return {
    ...{ shift, u },
    printer: partOf(learnt.belief, causeRow(meeting.print)),
    machine: partOf(learnt.belief, causeRow(meeting.machine)),
  };
}
