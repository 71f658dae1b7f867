import type { Member } from '../family/member.ts';
import type { Values } from '../family/values.ts';
import type { FitLine, FitProblem } from '../fit/types.ts';
import type { Prepared } from './prepare.ts';

/** One part of a job, with the job as it is for that part. */
export interface MemberJob {
  readonly member: Member;
  readonly prepared: Prepared;
}

/** The parts that a job makes; one, unless its family has members. */
export function membersOf(prepared: Prepared): readonly MemberJob[] {
  const { family, values } = prepared;
  return family.members(values).map((member) => ({
    member,
    prepared: {
      ...prepared,
      values: { ...values, choices: { ...values.choices, ...member.choices } } as Values,
    },
  }));
}

/** Id of something of a member among those of all: "front-left.hole"; as it is when there is one part. */
export const idOf = ({ id }: Member, of: string): string => (id === '' ? of : `${id}.${of}`);

/** Name of something of a member: "front left: stem in hole". */
export const nameOf = ({ name }: Member, of: string): string => (name === '' ? of : `${name}: ${of}`);

/** The fits of all parts as one: they share readings, callipers and printer, and all must hold. */
export function together(parts: readonly { member: Member; problem: FitProblem }[]): FitProblem {
  const contributors = new Map(
    parts.flatMap(({ problem }) => problem.contributors.map((cause) => [cause.id, cause] as const)),
  );
  const lines = parts.flatMap(({ member, problem }) => {
    const listed = new Map(problem.contributors.map((cause) => [cause.id, cause]));
    return problem.lines.map((line): FitLine => {
      // The list keeps one u a cause; where another part met the cause with another, the ratio goes to the line.
      const sensitivity = Object.entries(line.sensitivity).map(([id, by]) => {
        const kept = contributors.get(id)!.u;
        return [id, kept === 0 ? by : (by * listed.get(id)!.u) / kept] as const;
      });
      return { ...line, id: idOf(member, line.id), sensitivity: Object.fromEntries(sensitivity) };
    });
  });
  return { lines, contributors: [...contributors.values()] };
}
