import type { PlannedInterface } from '../check/context.ts';
import { aimOf, ONE_SIDED_AIM, windowOf } from '../fit/classes.ts';
import type { Window } from '../fit/types.ts';
import { isVertical } from '../printer/measurand.ts';
import { turn } from '../solid/placement.ts';
import { groupOf } from './groupOf.ts';
import { RUNGS, STEP } from './ladderLimits.ts';
import { membersOf } from './members.ts';
import { allowedNames } from './nearest.ts';
import { type Plan, plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import { Refused } from './problem.ts';

/** How a ladder climbs. */
export interface LadderOptions {
  /** Copies on the strip, 3 to 15; 7 unless told. */
  readonly rungs?: number | undefined;
  /** Clearance from one to the next, mm, 0.01 to 1; unless told a third of the narrowest window, at least 0.03. */
  readonly step?: number | undefined;
}

/** The part once for every rung, tightest first. */
export interface LadderSteps {
  /** Interfaces of the group. */
  readonly ids: readonly string[];
  /** Those of them that step; the others are the same on every rung. */
  readonly stepped: readonly string[];
  readonly step: number;
  /** Number of the middle rung, from 0, which is the part as it would be made where the count is odd. */
  readonly middle: number;
  readonly plans: readonly Plan[];
  readonly window: Readonly<Record<string, Window>>;
  readonly aim: Readonly<Record<string, number>>;
}

/** The part that a ladder copies, and its group there. A job that makes several parts has an interface on each; unless the
 *  name begins with a part's own, as in `front-left.hole`, the first part that has it is taken, for they feel alike.
 *  Throws `Refused`: `interface_unknown`. */
export function ladderPart(prepared: Prepared, name: string): { prepared: Prepared; group: string } {
  const parts = membersOf(prepared).map(({ member, prepared: own }) => ({
    prepared: own,
    ids: own.family.interfaces(own.values, {}).map(({ id }) => id),
    group: member.id !== '' && name.startsWith(`${member.id}.`) ? name.slice(member.id.length + 1) : name,
  }));
  const found = parts.find(({ ids, group }) => ids.some((id) => id === group || groupOf(id) === group));
  if (found) return found;
  const ids = [...new Set(parts.flatMap((part) => part.ids))];
  throw new Refused([
    {
      code: 'interface_unknown',
      field: '',
      value: name,
      allowed: allowedNames(name, [...new Set([...ids.map(groupOf), ...ids])]),
      reason: 'is no meeting surface of this part',
    },
  ]);
}

/** Plans the part for every rung of a ladder: the group's clearance, and nothing else of the job, shifted in equal steps
 *  about its aim. `name` is a group (`socket` for `socket.width` and `socket.length`) or one interface, as `ladderPart`
 *  found it.
 *
 *  The size with the narrowest window is what is felt. A size that lies upright on the bed comes in whole layers: where
 *  the narrowest does, the step is a whole number of them; where another does, it stands still, for a jump of a layer
 *  would drown the steps of the narrowest.
 *  Throws `Refused`: `rungs_range`, `step_range`, and as `plan` for a rung nobody can draw. */
export function ladderSteps(prepared: Prepared, name: string, options: LadderOptions): LadderSteps {
  const normal = plan(prepared);
  const members = membersIn(normal, name);
  const count = within('--rungs', options.rungs ?? RUNGS.normal, RUNGS.fewest, RUNGS.most, 'rungs_range');
  if (!Number.isInteger(count)) refuse('rungs_range', '--rungs', count, 'a whole number from 3 to 15');

  const upright = (one: PlannedInterface) =>
    isVertical({ kind: one.kind, direction: turn(normal.lay.turn, one.across) });
  const fits = prepared.fits;
  const window = byId(members, ({ id, fit }) => windowOf(fits[id] ?? fit));
  const aim = byId(members, ({ id, fit }) => aimOf(fits[id] ?? fit));

  const widthOf = ({ id }: PlannedInterface): number => {
    const { lo, hi } = window[id]!;
    return Number.isFinite(hi - lo) ? hi - lo : 2 * ONE_SIDED_AIM;
  };
  const [narrowest] = [...members].sort((a, b) => widthOf(a) - widthOf(b));
  const inLayers = upright(narrowest!);
  const stepping = inLayers ? members : members.filter((one) => !upright(one));
  const width = widthOf(narrowest!);
  const usual = Math.max(STEP.leastNormal, Math.round((100 * width) / 3) / 100);
  const asked = within('--step', options.step ?? usual, STEP.least, STEP.most, 'step_range');
  const { layer } = prepared.printer;
  const step = inLayers ? layer * Math.max(1, Math.ceil(asked / layer - 1e-9)) : asked;

  const middle = (count - 1) / 2;
  const plans = Array.from({ length: count }, (_, k) => {
    const by = (k - middle) * step;
    const shifted = byId(stepping, ({ id }): Window => {
      const { lo, hi } = window[id]!;
      return { lo: lo + by, hi: hi + by, aim: aim[id]! + by };
    });
    return planOf(prepared, { ...fits, ...shifted }, step);
  });
  return {
    ids: members.map(({ id }) => id),
    stepped: stepping.map(({ id }) => id),
    step,
    middle,
    plans,
    window,
    aim,
  };
}

/** The part with other fits. The one of the job can be drawn, so that a rung which cannot is the step's fault. */
function planOf(prepared: Prepared, fits: Prepared['fits'], step: number): Plan {
  try {
    return plan({ ...prepared, fits });
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    const [problem] = error.problems;
    throw new Refused([
      {
        code: 'step_range',
        field: '--step',
        value: `${step} mm`,
        allowed: 'a smaller step, or fewer rungs',
        reason: problem?.reason ?? problem?.allowed ?? 'leaves nothing to draw',
      },
    ]);
  }
}

/** Interfaces that a name means: all whose name before the point it is, or that one. */
function membersIn({ interfaces }: Plan, name: string): PlannedInterface[] {
  const group = interfaces.filter(({ id }) => groupOf(id) === name);
  return group.length > 0 ? group : interfaces.filter(({ id }) => id === name);
}

const byId = <T>(
  members: readonly PlannedInterface[],
  of: (one: PlannedInterface) => T,
): Readonly<Record<string, T>> => Object.fromEntries(members.map((one) => [one.id, of(one)]));

function within(field: string, value: number, from: number, to: number, code: string): number {
  if (value >= from && value <= to) return value;
  return refuse(code, field, value, `${from} to ${to}${field === '--step' ? ' mm' : ''}`);
}

function refuse(code: string, field: string, value: number, allowed: string): never {
  throw new Refused([{ code, field, value: String(value), allowed }]);
}
