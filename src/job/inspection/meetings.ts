import type { PlannedInterface } from '../../check/context.ts';
import { idOf, type MemberJob, membersOf, nameOf } from '../members.ts';
import { type Plan, plan } from '../plan.ts';
import type { Prepared } from '../prepare.ts';

/** One place where a part of the job meets the machine, with the part and the plan it belongs to. */
export interface Meeting {
  /** Id and name as in the result: "front-left.stem", "front left: stem in hole". */
  readonly id: string;
  readonly name: string;
  /** As planned; its own id is that within the part. */
  readonly one: PlannedInterface;
  readonly part: MemberJob;
  readonly planned: Plan;
}

/** Every place where the parts of a job meet the machine, in the order of the result. Throws `Refused` as `plan` does. */
export const meetingsOf = (prepared: Prepared): readonly Meeting[] =>
  membersOf(prepared).flatMap((part) => {
    const planned = plan(part.prepared);
    return planned.interfaces.map((one) => ({
      id: idOf(part.member, one.id),
      name: nameOf(part.member, one.name),
      ...{ one, part, planned },
    }));
  });
