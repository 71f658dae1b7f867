import type { HostPart, Pose } from '../family/machine.ts';
import { type Manifold, type Scope, withScope } from '../solid/kernel.ts';
import { matrix, turn } from '../solid/placement.ts';
import { realise } from '../solid/realise.ts';
import { type Placement, times, type Vec3 } from '../solid/vector.ts';
import { type Box, boxSolid, grownBox } from './ladderBox.ts';
import type { LadderSteps } from './ladderGroup.ts';
import type { Plan } from './plan.ts';
import type { Prepared } from './prepare.ts';

/** Room the machine takes around one rung while it is tried, on the bed. */
export interface LadderRoom {
  /** The piece of machine the rung is tried on, in its final place and on its way there. */
  readonly needed: Manifold;
  /** The rest of the machine, which may lie on the bench meanwhile; null when there is none. */
  readonly better: Manifold | null;
}

/** How far a piece of the machine is followed on its way beyond the length of the feature, and how finely, mm. No wall
 *  of a machine is thinner than the steps. */
const BEYOND = 3;
const EVERY = 0.7;
/** Least room that must stay around the machine, mm. */
const AROUND = 0.3;
/** Volumes below this are rounding, mm^3. */
export const NOTHING = 1e-4;

/** Room for trying a rung. The piece of the machine tried on is what the family says meets the group, and whatever goes
 *  with it through the whole motion: a keycap's socket does not come without its skirt. It comes the way the part
 *  goes in: a post along its axis, a bar through the mouth where there is one, else along the bore from the side
 *  where less is in its way. What is handed back takes the rung on the bed. Solids belong to the scope. */
export function ladderRooms(
  scope: Scope,
  prepared: Prepared,
  { plans, ids }: Pick<LadderSteps, 'plans' | 'ids'>,
  { planned, onBed }: { planned: Plan; onBed: Placement },
): (piece: Manifold) => LadderRoom {
  const { family, values } = prepared;
  const hosts = family.host(values);
  const poses = family.motion(values);
  const met = hosts.filter(({ meets }) => meets?.some((id) => ids.includes(id)));
  const tried = hosts.filter((host) => met.some((other) => goTogether(host, other, poses)));
  const rest = hosts.filter((host) => !tried.includes(host));
  const solidOf = (host: HostPart) => scope.keep(realise(scope, host.shape).transform(matrix(onBed)));
  const lying = tried.map(solidOf);
  const { Manifold } = scope.kernel;
  if (lying.length === 0) {
    const all = rest.map(solidOf);
    const nothing = scope.keep(Manifold.union([]));
    const better = all.length === 0 ? null : scope.keep(Manifold.union(all));
    return () => ({ needed: nothing, better });
  }

  const first = planned.interfaces.find(({ id }) => id === ids[0])!;
  const lengths = plans.flatMap(({ interfaces }) =>
    interfaces.filter(({ id }) => ids.includes(id)).map(({ length }) => length),
  );
  const far = Math.max(...lengths) + BEYOND;
  const mouth = family
    .loads(values, planned.drawn)
    .find((load) => load.kind === 'mouth' && ids.some((id) => id === load.interface || id === load.id));
  const comesFrom: readonly Vec3[] =
    first.kind === 'post' || first.kind === 'rib'
      ? [first.axis]
      : mouth
        ? [times(mouth.inward, -1)]
        : [first.axis, times(first.axis, -1)];
  const ways = comesFrom.map((way) => {
    const from = turn(onBed, way);
    const count = Math.ceil(far / EVERY);
    const copies = lying.flatMap((solid) =>
      Array.from({ length: count + 1 }, (_, k) =>
        scope.keep(solid.translate(times(from, (k * far) / count))),
      ),
    );
    return scope.keep(Manifold.union(copies));
  });
  const others = rest.map(solidOf);
  const better = others.length === 0 ? null : scope.keep(Manifold.union(others));
  return (piece) => {
    const [best] = ways
      .map((needed) => ({ needed, clash: overlap(needed, piece) }))
      .sort((a, b) => a.clash - b.clash);
    return { needed: best!.needed, better };
  };
}

/** Whether two pieces of the machine keep their places to each other through every pose. */
function goTogether(a: HostPart, b: HostPart, poses: readonly Pose[]): boolean {
  const told = ({ placements }: Pose, { id }: HostPart) => JSON.stringify(placements[id] ?? null);
  return a.id === b.id || poses.every((pose) => told(pose, a) === told(pose, b));
}

/** Volume that two solids share, mm^3. */
const overlap = (a: Manifold, b: Manifold): number => {
  const shared = a.intersect(b);
  const volume = shared.volume();
  shared.delete();
  return volume;
};

/** Volume of a solid within boxes, mm^3. */
export const volumeIn = ({ kernel }: Scope, solid: Manifold, boxes: readonly Box[]): number =>
  // Thousands of these are made for one ladder: none may stay until it is done.
  withScope(kernel, (own) =>
    overlap(solid, own.keep(kernel.Manifold.union(boxes.map((box) => boxSolid(own, box))))),
  );

/** The same of the machine, in boxes grown by the room that is to stay around it. */
export const clash = (scope: Scope, machine: Manifold, boxes: readonly Box[]): number =>
  machine.isEmpty()
    ? 0
    : volumeIn(
        scope,
        machine,
        boxes.map((box) => grownBox(box, AROUND)),
      );
