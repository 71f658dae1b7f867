import type { CheckContext } from '../../check/context.ts';
import type { Route, RouteStep } from '../../family/load.ts';
import { identity } from '../../solid/placement.ts';
import { dot, type Placement, times, type Vec3 } from '../../solid/vector.ts';

/** Something that moves, as pictures one after another. */
export interface Play {
  /** `motion`, or the id of a route. */
  readonly id: string;
  readonly kind: 'motion' | 'route';
  readonly name: string;
  readonly frames: readonly Frame[];
}

export interface Frame {
  /** "key 2.0 mm down", or what is done in this step. */
  readonly name: string;
  /** Which step of the route it belongs to, from 1; absent for a motion. */
  readonly step?: number;
  /** Hosts that stand elsewhere than they were built, frame of the part; null: not in the picture. */
  readonly placements: Readonly<Record<string, Placement | null>>;
}

/** Pictures a step of a route. */
const FRAMES = 8;

/** What of the machine moves while the part is in it, and how it goes together: the poses of the motion, then every route
 *  that moves something. The part stands still, the machine comes to it: on each step of a route from the side from
 *  which it is put on, pushed in or threaded. Arms that open on the way are not shown opening. */
export function playsOf({ poses, routes, ...context }: CheckContext): readonly Play[] {
  const motion: Play[] =
    poses.length > 1
      ? [
          {
            id: 'motion',
            kind: 'motion',
            name: 'in use',
            frames: poses.map(({ name, placements }) => ({ name, placements })),
          },
        ]
      : [];
  const ways = routes.map((route) => routePlay({ poses, routes, ...context }, route));
  return [...motion, ...ways.filter((play) => play !== null)];
}

/** Hosts that come along in a step, and from how far. */
interface Coming {
  readonly hosts: readonly string[];
  readonly from: Vec3;
}

function routePlay(context: CheckContext, route: Route): Play | null {
  const moves: (Coming | null)[] = route.steps.map((step) => comingIn(context, step));
  // Where no step says what moves, the part goes onto its seat in the last of them.
  if (!moves.some((move) => move !== null)) moves[moves.length - 1] = ontoSeat(context);
  if (!moves.some((move) => move !== null)) return null;
  const named = new Set(moves.flatMap((move) => move?.hosts ?? []));
  const driven = new Set(context.poses.flatMap(({ placements }) => Object.keys(placements)));
  const rest = context.hosts.map(({ part }) => part.id).filter((id) => !named.has(id));
  // What belongs to no step goes with the last piece of machine that is pushed on, unless it stays behind when that moves.
  const carrier = route.steps.findLastIndex(({ kind }, k) => kind === 'press' && moves[k] !== null);
  const last = carrier >= 0 ? carrier : moves.findLastIndex((move) => move !== null);
  const carried = rest.filter((id) => !driven.has(id));
  moves[last] = { ...moves[last]!, hosts: [...moves[last]!.hosts, ...carried] };
  const absent = Object.fromEntries(rest.filter((id) => driven.has(id)).map((id) => [id, null]));
  const frames = route.steps.flatMap(({ sentence }, k) =>
    Array.from({ length: moves[k] ? FRAMES : 1 }, (_, j): Frame => {
      const placements: Record<string, Placement | null> = { ...absent };
      moves.forEach((move, m) => {
        if (!move) return;
        const left = m < k ? 0 : m > k ? 1 : 1 - j / (FRAMES - 1);
        for (const id of move.hosts) placements[id] = movedBy(times(move.from, left));
      });
      return { name: sentence, step: k + 1, placements };
    }),
  );
  return { id: route.id, kind: 'route', name: route.name, frames };
}

/** No negative zero: plain data is compared. */
const movedBy = (by: Vec3): Placement => ({
  rotation: identity.rotation,
  translation: by.map((value) => value + 0) as Vec3,
});

function comingIn(context: CheckContext, step: RouteStep): Coming | null {
  switch (step.kind) {
    case 'place':
      return null;
    case 'press': {
      const met = context.interfaces.find(({ id }) => step.socket.interfaces.includes(id));
      if (!met) return null;
      return {
        hosts: hostsMeeting(context, step.socket.interfaces),
        from: times(met.axis, 1.6 * step.socket.contact),
      };
    }
    case 'snap': {
      const load = context.loads.find(({ id }) => id === step.load);
      if (!load) return null;
      const out = Math.max(...load.lips.map(([, inward]) => Math.abs(inward))) + 2.5 * load.bar;
      return { hosts: hostsMeeting(context, [load.interface]), from: times(load.inward, -out) };
    }
    case 'thread': {
      const hollow = context.interfaces.find(
        ({ id, kind }) => (kind === 'bore' || kind === 'slot') && !step.socket.interfaces.includes(id),
      );
      const host = hollow && context.hosts.find(({ part }) => part.meets?.includes(hollow.id));
      if (!hollow || !host) return null;
      const { min, max } = host.solid.boundingBox();
      const middle = [0, 1, 2].map((k) => (min[k]! + max[k]!) / 2 - hollow.at[k]!) as Vec3;
      const side = dot(middle, hollow.axis) < 0 ? -1 : 1;
      return { hosts: [host.part.id], from: times(hollow.axis, 1.5 * side * step.needed) };
    }
  }
}

function ontoSeat(context: CheckContext): Coming | null {
  const seat = context.hosts.find(({ part }) => part.seat !== undefined)?.part.seat;
  if (!seat) return null;
  const { min, max } = context.solid.boundingBox();
  const size = Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  return { hosts: [], from: times(seat, 0.6 * size) };
}

const hostsMeeting = ({ hosts }: CheckContext, interfaces: readonly string[]): string[] =>
  hosts.filter(({ part }) => part.meets?.some((id) => interfaces.includes(id))).map(({ part }) => part.id);
