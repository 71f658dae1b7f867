import type { PlannedInterface } from '../check/context.ts';
import { type Manifold, type ManifoldToplevel, type Scope, withScope } from '../solid/kernel.ts';
import type { Mesh } from '../solid/mesh.ts';
import { meshOf } from '../solid/meshOf.ts';
import { place, turn } from '../solid/placement.ts';
import type { Placement, Vec3 } from '../solid/vector.ts';
import { boxSolid, movedBox } from './ladderBox.ts';
import { type LadderOptions, type LadderSteps, ladderPart, ladderSteps } from './ladderGroup.ts';
import { type LadderHold, ladderHold, rungNumber } from './ladderHold.ts';
import { ladderRegion, openRoom, regionMargin, WIDER } from './ladderRegion.ts';
import { ladderRooms } from './ladderRoom.ts';
import { layOnBed } from './make.ts';
import type { Plan } from './plan.ts';
import type { Prepared } from './prepare.ts';
import { Refused } from './problem.ts';
import type { LadderRecord } from './schema.ts';

/** One copy of the interface on the strip. */
export interface LadderRung {
  /** As it stands on the strip; 1 is the tightest. */
  readonly number: number;
  /** Expected clearance and drawn size, by interface of the group, mm. */
  readonly clearance: Readonly<Record<string, number>>;
  readonly drawn: Readonly<Record<string, number>>;
  /** Where each interface lies in the STL, mm. */
  readonly places: Readonly<
    Record<string, { readonly at: Vec3; readonly axis: Vec3; readonly across: Vec3 }>
  >;
}

/** A strip with copies of one interface in steps of clearance. */
export interface Ladder {
  readonly group: string;
  /** Interfaces that step from rung to rung, and by how much, mm. */
  readonly stepped: readonly string[];
  readonly step: number;
  readonly rungs: readonly LadderRung[];
  /** What the job remembers of it until there is a verdict; the date is the caller's. */
  readonly record: Omit<LadderRecord, 'date' | 'felt' | 'learnt'>;
  /** Whether the machine reaches every rung without touching strip or neighbours; else rungs are to be cut off. */
  readonly free: boolean;
  /** Volume printed solid, mm^3, and extents on the bed, mm. */
  readonly volume: number;
  readonly extents: Vec3;
  readonly layers: number;
  /** The strip as drawn, on the bed. */
  readonly mesh: Mesh;
}

/** Copies of one interface, with just the plastic that gives it its feel, in steps of clearance on a numbered strip: the
 *  part is drawn once for each rung, laid on the bed as it will be printed, relieved of what its first layer spreads, and
 *  cut down to the interface; all that lies below is kept, so that it prints as in the part. A strip on a side where
 *  the machine needs no room holds the rungs together.
 *
 *  `name` is a group of interfaces or one of them, of a job of several parts also with the part's name before it. Pure: the same job gives the same ladder.
 *  Throws `Refused` as `ladderPart` and `ladderSteps`, `ladder_too_long` for one that does not fit the bed, and `ladder_not_possible`
 *  where nothing holds the rungs. */
export function ladder(
  kernel: ManifoldToplevel,
  whole: Prepared,
  name: string,
  options: LadderOptions = {},
): Ladder {
  const { prepared, group } = ladderPart(whole, name);
  const steps = ladderSteps(prepared, group, options);
  return withScope(kernel, (scope) => drawn(scope, prepared, group, steps));
}

function drawn(scope: Scope, prepared: Prepared, group: string, steps: LadderSteps): Ladder {
  const { plans, ids, stepped } = steps;
  const { printer } = prepared;
  const chosen = (all: readonly PlannedInterface[]) => all.filter(({ id }) => ids.includes(id));
  const laid = plans.map((planned) => {
    const { solid, onBed } = layOnBed(scope, prepared, planned);
    const members = chosen(planned.interfaces);
    return { planned, onBed, members, solid, all: planned.interfaces, home: place(onBed, members[0]!.at) };
  });
  const middle = laid[Math.floor(steps.middle)]!;
  const { margin, hold } = heldSomehow(scope, prepared, steps, middle);
  const pieces = laid.map((each) => ({ ...each, piece: ladderRegion(scope, each, margin) }));
  if (hold === null)
    throw new Refused([
      {
        code: 'ladder_not_possible',
        field: '',
        value: group,
        allowed: 'an interface with plastic beside it',
        reason: 'leaves no place where a strip could hold it',
      },
    ]);
  mustFit(group, hold, plans.length, prepared);

  const along = (k: number): Vec3 => (hold.u === 0 ? [k * hold.pitch, 0, 0] : [0, k * hold.pitch, 0]);
  const solids = pieces.flatMap(({ piece, home }, k) => {
    const by = along(k);
    // Every rung stands where the middle one would, by its interface; heights above the bed stay its own.
    const put: Vec3 = [middle.home[0] - home[0] + by[0], middle.home[1] - home[1] + by[1], 0];
    return [
      scope.keep(piece.translate(put)),
      boxSolid(scope, movedBox(hold.arm, by)),
      boxSolid(scope, movedBox(hold.strip, by)),
      ...(hold.pillar ? [boxSolid(scope, movedBox(hold.pillar, by))] : []),
      rungNumber(scope, hold, k + 1, by, printer.lineWidth),
    ];
  });
  const joined = scope.keep(scope.kernel.Manifold.union(solids));
  const { min } = joined.boundingBox();
  const solid = scope.keep(joined.translate([-min[0], -min[1], -min[2]]));
  const rungs = pieces.map(({ members, onBed, home }, k): LadderRung => {
    const by = along(k);
    const put: Vec3 = [
      middle.home[0] - home[0] + by[0] - min[0],
      middle.home[1] - home[1] + by[1] - min[1],
      -min[2],
    ];
    return { number: k + 1, ...sizesOf(members), places: placesOf(members, onBed, put) };
  });
  const doubts = chosen(middle.planned.interfaces)
    .filter(({ id }) => stepped.includes(id))
    .map(({ u }) => Math.sqrt(Math.max(0, u ** 2 - printer.repeatability ** 2)));
  const { max } = solid.boundingBox();
  return {
    group,
    stepped,
    step: steps.step,
    rungs,
    record: {
      printer: printer.name,
      material: prepared.material.name,
      layer: printer.layer,
      rungs: rungs.map(({ drawn, clearance }) => ({ drawn, clearance })),
      doubt: { u: Math.max(...doubts), spread: printer.repeatability },
      window: Object.fromEntries(
        ids.map((id) => [id, [endOf(steps.window[id]!.lo), endOf(steps.window[id]!.hi)]]),
      ),
      aim: Object.fromEntries(ids.map((id) => [id, rounded(steps.aim[id]!)])),
    },
    free: hold.free,
    volume: solid.volume(),
    extents: [...max] as Vec3,
    layers: Math.round((max[2] - printer.firstLayer) / printer.layer) + 1,
    mesh: meshOf(solid),
  };
}

const endOf = (end: number): number | null => (Number.isFinite(end) ? end : null);

/** To a nanometre: far below what anything here is known to, and legible in a job file. */
const rounded = (mm: number): number => Number(mm.toFixed(6));

const sizesOf = (members: readonly PlannedInterface[]): Pick<LadderRung, 'clearance' | 'drawn'> => ({
  clearance: Object.fromEntries(members.map(({ id, clearance }) => [id, rounded(clearance)])),
  drawn: Object.fromEntries(members.map(({ id, drawn }) => [id, rounded(drawn)])),
});

const placesOf = (members: readonly PlannedInterface[], onBed: Placement, put: Vec3): LadderRung['places'] =>
  Object.fromEntries(
    members.map(({ id, at, axis, across }) => {
      const [x, y, z] = place(onBed, at);
      return [
        id,
        {
          at: [x + put[0], y + put[1], z + put[2]] as Vec3,
          axis: turn(onBed, axis),
          across: turn(onBed, across),
        },
      ];
    }),
  );

/** The smallest piece that can be held where the machine needs no room; where none can, the first that can be held. */
function heldSomehow(
  scope: Scope,
  prepared: Prepared,
  steps: LadderSteps,
  middle: Laid,
): { readonly margin: number | null; readonly hold: LadderHold | null } {
  let first: { margin: number | null; hold: LadderHold } | undefined;
  const roomFor = ladderRooms(scope, prepared, steps, middle);
  for (const wider of WIDER) {
    const margin = regionMargin(scope, middle, wider);
    const piece = ladderRegion(scope, middle, margin);
    const room = roomFor(piece);
    const held = { piece, room, count: steps.plans.length, printer: prepared.printer };
    const holdWith = (roots: boolean): LadderHold | null =>
      ladderHold(scope, {
        ...{ ...held, open: openRoom(scope, middle, piece, { roots }) },
        onlyFree: first !== undefined,
      });
    const hold = holdWith(true) ?? holdWith(false);
    if (hold?.free) return { margin, hold };
    if (hold) first ??= { margin, hold };
    if (margin === null) break;
  }
  return first ?? { margin: null, hold: null };
}

interface Laid {
  readonly planned: Plan;
  readonly onBed: Placement;
  readonly members: readonly PlannedInterface[];
  readonly all: readonly PlannedInterface[];
  readonly solid: Manifold;
}

function mustFit(group: string, hold: LadderHold, count: number, { printer }: Prepared): void {
  const length = hold.pitch * count;
  const room = hold.u === 0 ? printer.bed.x : printer.bed.y;
  if (length <= room) return;
  throw new Refused([
    {
      code: 'ladder_too_long',
      field: '--rungs',
      value: String(count),
      allowed: `at most ${Math.floor(room / hold.pitch)}`,
      reason: `of ${group} take ${length} mm on a bed of ${room} mm`,
    },
  ]);
}
