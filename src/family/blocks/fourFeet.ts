import { identity } from '../../solid/placement.ts';
import { block, cylinder } from '../../solid/primitives.ts';
import { difference, placed, type Shape, union } from '../../solid/shape.ts';
import type { Placement, Vec2, Vec3 } from '../../solid/vector.ts';
import { type CentreOfGravity, unknownCentre } from '../../strength/centreOfGravity.ts';
import { settleFeet } from '../../strength/springFeet.ts';
import { footLoads } from '../../strength/worstStance.ts';
import { between, type Callout } from '../callout.ts';
import type { Choices } from '../choice.ts';
import type { Feature } from '../feature.ts';
import type { HostPart } from '../machine.ts';
import { byRule, depth, type ReadingSpec, weighed } from '../reading.ts';
import { sane } from '../rule.ts';

/** The corners of a machine, seen from above, in the order of everything that is said foot by foot. */
export const corners = ['front left', 'front right', 'rear left', 'rear right'] as const;
/** A corner by its place in that order. */
export type Corner = 0 | 1 | 2 | 3;

/** Standard gravity, m/s^2 (ISO 80000-3). */
const GRAVITY = 9.80665;

/** What a family of feet asks about the machine that stands on them. */
export const standingReadings = {
  weight: weighed('weight of the machine', {
    ...{ from: 200, to: 40_000, typical: 5200 },
    tip: 'The whole machine on a kitchen or bathroom scale, as it stands on the desk; two scales side by side add up',
  }),
  frontEdge: byRule('front edge to front feet', {
    ...{ from: 5, to: 200, typical: 25, u: 1 },
    tip: 'Rule from the front edge of the case back to the middle of the front feet',
  }),
  apart: byRule('front feet to rear feet', {
    ...{ from: 30, to: 700, typical: 210, u: 1 },
    tip: 'Rule from the middle of a front foot straight back to the middle of the rear foot',
  }),
  across: byRule('left feet to right feet', {
    ...{ from: 30, to: 800, typical: 300, u: 1 },
    tip: 'Rule from the middle of a left foot straight across to the middle of the right foot',
  }),
  balance: byRule('front edge to balance point', {
    ...{ from: 5, to: 800, typical: 145, u: 5, optional: true },
    tip: 'Lay the case across a broomstick on the table until it balances; rule from its front edge to the stick',
  }),
  balanceAcross: byRule('left feet to balance point', {
    ...{ from: 0, to: 800, typical: 150, u: 5, optional: true },
    tip: 'The same with the stick from front to back; rule from the middle of the left feet to the stick',
  }),
};

/** Height that each foot should have, by corner. `when` as in `ReadingSpec`. */
export function cornerHeights(when: (choices: Choices) => boolean) {
  const height = (corner: string) =>
    depth(`${corner} height`, {
      ...{ ...FOOT_HEIGHT, times: 2, when },
      tip: `On the ${corner} foot: beam end on its face, rod down to the case; or the height you want there`,
    });
  const [frontLeft, frontRight, rearLeft, rearRight] = corners.map(height) as unknown as Four<ReadingSpec>;
  return { frontLeft, frontRight, rearLeft, rearRight };
}

/** Height of one foot of four alike. `when` as in `ReadingSpec`. */
export const anyHeight = (when: (choices: Choices) => boolean) => ({
  height: depth('height of a foot', {
    ...{ ...FOOT_HEIGHT, when },
    tip: 'On a foot that survives: beam end on its face, rod down to the case; or the height you want',
  }),
});

type Four<T> = readonly [T, T, T, T];
const FOOT_HEIGHT = { from: 2, to: 40, typical: 9 };

type Standing = Readonly<Record<keyof typeof standingReadings, number>>;

/** A machine on four feet. */
export interface Stance {
  /** Feet in the order of `corners`, x to the right, y to the back, from the front left foot, mm. */
  readonly places: readonly Vec2[];
  readonly centre: CentreOfGravity;
  /** N. */
  readonly weight: number;
  /** What each foot carries when all of them give way alike, N. */
  readonly expected: readonly number[];
  /** The most each may have to carry: the worst three-point stance, with the doubt of the centre, N. */
  readonly most: readonly number[];
}

/** How far off a balance point by a broomstick may be, mm. Common practice, no source. */
const STICK = 10;

/** How a machine stands, from its weight, its feet and, where read, its balance point. A balance point that is not
 *  read is taken for the middle, give or take what `unknownCentre` says; one outside the feet is brought to their
 *  line, and a rule of the family has to refuse it. */
export function stanceOf(d: Standing): Stance {
  const places: Vec2[] = [
    [0, 0],
    [d.across, 0],
    [0, d.apart],
    [d.across, d.apart],
  ];
  const unknown = unknownCentre(places);
  const read = [d.balanceAcross, d.balance - d.frontEdge] as const;
  const at = read.map((point, k) =>
    Number.isNaN(point) ? unknown.at[k]! : Math.min(places[3]![k]!, Math.max(0, point)),
  ) as Vec2;
  const centre = { at, doubt: read.some(Number.isNaN) ? unknown.doubt : STICK };
  const weight = (d.weight / 1000) * GRAVITY;
  const springs = places.map((place) => ({ at: place, stiffness: 1, height: 0 }));
  return {
    ...{ places, centre, weight },
    expected: settleFeet(springs, at, weight).loads,
    most: footLoads(places, centre, weight).most,
  };
}

/** The machine around a part at one of its corners: where weight and feet are read, what is to be seen of it, and the
 *  rule that it must not tip. `heights`: of the four feet as read, for their callouts; absent: not read. */
export function machineOnFeet(d: Standing, seen: Seen): Feature {
  return {
    callouts: calloutsOf(d, seen),
    hosts: () => hostsOf(d, seen),
    // A riser goes under a machine that stands.
    cautions: seen.heights?.length === 0 ? [] : [turnOver(d.weight)],
    rules: (['balance', 'balanceAcross'] as const).map((field) => {
      const [from, to] = field === 'balance' ? [d.frontEdge, d.frontEdge + d.apart] : [0, d.across];
      const lies = `${d[field].toFixed(0)} mm, ${from.toFixed(0)} to ${to.toFixed(0)} mm`;
      const within = Number.isNaN(d[field]) || (d[field] > from && d[field] < to);
      return sane(within, field, `must lie between the feet, or the machine tips over (${lies})`);
    }),
  };
}

function calloutsOf(d: Standing, { corner, heights = [] }: Seen): Readonly<Record<string, Callout>> {
  const [x, y] = placeOf(d, corner);
  const on = (from: Vec2, to: Vec2): Callout =>
    between([from[0] - x, from[1] - y, 0], [to[0] - x, to[1] - y, 0]);
  const tall = heights.map((height, k): Callout => {
    const at = placeOf(d, k as Corner);
    return between([at[0] - x, at[1] - y, -height], [at[0] - x, at[1] - y, 0]);
  });
  const [frontLeft, frontRight, rearLeft, rearRight] = tall as unknown as Four<Callout>;
  return {
    frontEdge: on([0, -d.frontEdge], [0, 0]),
    apart: on([d.across, 0], [d.across, d.apart]),
    across: on([0, d.apart], [d.across, d.apart]),
    balance: on([d.across / 2, -d.frontEdge], [d.across / 2, d.balance - d.frontEdge]),
    balanceAcross: on([0, d.apart / 2], [d.balanceAcross, d.apart / 2]),
    ...(heights.length === 1 ? { height: tall[0]! } : {}),
    ...(heights.length === 4 ? { frontLeft, frontRight, rearLeft, rearRight } : {}),
  };
}

const placeOf = (d: Standing, corner: Corner): Vec2 => [
  corner % 2 === 1 ? d.across : 0,
  corner > 1 ? d.apart : 0,
];

/** From here on a machine is turned over by two, g. Common practice, no source. */
const HEAVY = 10_000;

const turnOver = (weight: number): string =>
  `Unplug the machine before it is turned over, and lay it on something soft${weight > HEAVY ? '; it takes two people' : ''}`;

/** How far the case is drawn past its feet at sides and back, mm: nobody reads it, and nothing hangs on it. */
const RIM = 25;

/** What of the machine is to be seen around a part that stands at one of its corners. */
export interface Seen {
  readonly corner: Corner;
  /** Thickness of the case, mm, and what is taken out of it: a hole, a recess. */
  readonly thick: number;
  readonly without?: Shape;
  /** Where case and feet stand, when not level, and how far above z = 0 in that frame; absent: on it. */
  readonly where?: Placement;
  readonly above?: number;
  /** The other feet: size across and height, mm. */
  readonly foot: { readonly diameter: number; readonly height: number };
  /** As of a host: whether the part rests against the underside, and through what it meets the case. */
  readonly seat?: Vec3;
  readonly meets?: readonly string[];
  /** Heights of feet that were read: of this one, or of all four; absent: none. */
  readonly heights?: readonly number[];
}

function hostsOf(d: Standing, seen: Seen): HostPart[] {
  const { corner, thick, without, where = identity, above = 0, foot, seat, meets } = seen;
  const [x, y] = placeOf(d, corner);
  const plate = block(
    [-RIM - x, -d.frontEdge - y, above],
    [d.across + RIM - x, d.apart + RIM - y, above + thick],
  );
  const others = ([0, 1, 2, 3] as const)
    .filter((other) => other !== corner)
    .map((other) => {
      const at = placeOf(d, other);
      const from: Vec3 = [at[0] - x, at[1] - y, above - foot.height];
      const length = foot.height;
      return cylinder({
        axis: 'z',
        diameter: foot.diameter,
        from,
        length,
        sense: 'shaft',
        surface: 'plain',
      });
    });
  return [
    {
      ...{ id: 'case', name: 'case', keepOff: 0, ...(seat && { seat }), ...(meets && { meets }) },
      shape: placed(without ? difference(plate, without) : plate, where),
    },
    { id: 'feet', name: 'other feet', keepOff: 0, shape: placed(union(...others), where) },
  ];
}
