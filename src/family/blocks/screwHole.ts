import { cylinder } from '../../solid/primitives.ts';
import { type Shape, union } from '../../solid/shape.ts';
import type { Vec3 } from '../../solid/vector.ts';
import type { Callout } from '../callout.ts';
import { astride, between } from '../callout.ts';
import type { Choices } from '../choice.ts';
import type { Feature } from '../feature.ts';
import { bore, type Interface } from '../interface.ts';
import { depth, outside } from '../reading.ts';
import type { Drawn } from '../values.ts';

/** A flat head that sinks into the part, or a countersunk one. Sizes as measured, mm. */
export type SunkHead =
  /** `sunk`: from the face the screw comes in through to the seat of the head, above 0 and below `through`. */
  | { readonly kind: 'flat'; readonly diameter: number; readonly height: number; readonly sunk: number }
  /** `cone`: whole angle of the head, degrees, 90 for metric screws. The head comes to lie level with the face. */
  | { readonly kind: 'countersunk'; readonly diameter: number; readonly cone: number };

export interface ScrewHole {
  /** Id of the hole's interface; a counterbore is `ID.head`. */
  readonly id: string;
  /** For tables: "left screw". */
  readonly name: string;
  /** Middle of the face the screw comes in through, mm. */
  readonly at: Vec3;
  /** The way the screw goes in: up or down z. */
  readonly into: 1 | -1;
  /** Plastic the hole goes through, mm along z. */
  readonly through: number;
  /** Outside diameter of the screw as measured, mm. */
  readonly screw: number;
  /** Absent: the head rests on the face. */
  readonly head?: SunkHead;
  /** Absent: free, as a screw passes. */
  readonly fit?: Interface['fit'];
  readonly drawn: Drawn;
}

/** How far a hollow is cut past the faces it opens through, mm: faces that only meet leave films. */
const PAST = 1;
/** How far the screw is drawn past the part, and how far out of its seat: a turn before it is tight. mm. */
const SHOWN = { past: 6, loose: 0.4 } as const;
/** Play of a head in its counterbore, mm: a tool's slip and the head's own roundness. Common practice, no source. */
const HEAD_PLAY = { lo: 0.3, hi: 1 } as const;

/** A hole that a screw passes freely, with a counterbore or countersink for its head when that sinks in. Brings the
 *  cut, its fits (`ID`, and `ID.head` for a counterbore), the screw as part of the machine and one hole through the
 *  part. Along z only. Print it with the face the screw comes in through away from the bed, or with nothing sunk: else
 *  the seat of the head hangs.
 *  @example screwHole({ id: 'screw', name: 'screw', at: [0, 0, -8], into: 1, through: 8, screw: 3.9, drawn }).holes // => 1 */
export function screwHole(hole: ScrewHole): Feature {
  const { id, name, through, screw, head, fit = 'free', drawn } = hole;
  const [width, counter] = [drawn[id] ?? screw, head && (drawn[`${id}.head`] ?? head.diameter)];
  const sunk = head?.kind === 'flat' ? head.sunk : 0;
  const fits: Interface[] = [
    bore(id, {
      ...{ name: `${name} in hole`, host: screw, fit, at: along(hole, (sunk + through) / 2) },
      ...{ axis: [0, 0, hole.into], length: through - sunk, across: [1, 0, 0] },
    }),
  ];
  if (head?.kind === 'flat')
    fits.push(
      bore(`${id}.head`, {
        ...{ name: `head of the ${name}`, host: head.diameter, fit: HEAD_PLAY, at: along(hole, sunk / 2) },
        ...{ axis: [0, 0, hole.into], length: sunk, across: [1, 0, 0] },
      }),
    );
  return {
    interfaces: fits,
    holes: 1,
    callouts: calloutsOf(hole),
    cut: () =>
      union(
        round(hole, width, -PAST, through + PAST),
        ...(head?.kind === 'flat' ? [round(hole, counter!, -PAST, sunk)] : []),
        ...(head?.kind === 'countersunk' ? [cone(hole, head.diameter, head.cone)] : []),
      ),
    hosts: () => [
      {
        id,
        name,
        shape: screwSolid(hole, sunk),
        keepOff: 0,
        meets: fits.map((one) => one.id),
      },
    ],
  };
}

/** A point on the axis, `depth` mm in from the face. */
const along = ({ at, into }: ScrewHole, depth: number): Vec3 => [at[0], at[1], at[2] + into * depth];

/** A round hollow about the axis between two depths. */
const round = (hole: ScrewHole, diameter: number, from: number, to: number): Shape =>
  cylinder({
    ...{ axis: 'z', diameter, sense: 'bore', length: to - from },
    from: along(hole, hole.into === 1 ? from : to),
  });

/** A cone that is `diameter` wide at the face and comes to a point inside; it opens on past the face. */
function cone(hole: ScrewHole, diameter: number, angle: number): Shape {
  const slope = Math.tan((angle * Math.PI) / 360);
  const [wide, narrow] = [diameter + 2 * PAST * slope, Math.min(hole.screw, diameter) / 2];
  const length = (wide - narrow) / 2 / slope;
  const [start, end] = hole.into === 1 ? [wide, narrow] : [narrow, wide];
  return cylinder({
    ...{ axis: 'z', diameter: start, endDiameter: end, sense: 'bore', length },
    from: along(hole, hole.into === 1 ? -PAST : length - PAST),
  });
}

function screwSolid(hole: ScrewHole, sunk: number): Shape {
  const { screw, head, through } = hole;
  const solid = (diameter: number, from: number, to: number, endDiameter = diameter): Shape => {
    const [start, end] = hole.into === 1 ? [diameter, endDiameter] : [endDiameter, diameter];
    return cylinder({
      ...{ axis: 'z', diameter: start, endDiameter: end, sense: 'shaft', length: to - from },
      from: along(hole, hole.into === 1 ? from : to),
    });
  };
  const seat = sunk - SHOWN.loose;
  const shank = solid(screw, seat - (head?.kind === 'flat' ? head.height / 2 : 0), through + SHOWN.past);
  if (head === undefined) return shank;
  if (head.kind === 'flat') return union(shank, solid(head.diameter, seat - head.height, seat));
  const deep = (head.diameter - screw) / 2 / Math.tan((head.cone * Math.PI) / 360);
  return deep > 0 ? union(shank, solid(head.diameter, seat, seat + deep, screw)) : shank;
}

/** Where screw and head are read, on the screw as it goes in. */
function calloutsOf(hole: ScrewHole): Readonly<Record<string, Callout>> {
  const { head, screw, through } = hole;
  const shank = { screw: astride('x', screw, along(hole, through + SHOWN.past / 2)) };
  if (head?.kind !== 'flat') return shank;
  const [seat, side] = [along(hole, head.sunk), head.diameter / 2];
  const top = along(hole, head.sunk - head.height);
  return {
    ...shank,
    head: astride('x', head.diameter, top),
    headHeight: between([seat[0] + side, seat[1], seat[2]], [top[0] + side, top[1], top[2]]),
  };
}

/** What a family with a screw hole asks of the screw that is there. `when` as in `ReadingSpec`. */
export const screwReadings = (when: (choices: Choices) => boolean) => ({
  screw: outside('screw diameter', {
    ...{ from: 1.6, to: 6.5, typical: 3.9, when },
    tip: 'Over the crests of the thread of the screw that is there, not over a burr at its end',
  }),
  head: outside('head diameter', {
    ...{ from: 2.5, to: 14, typical: 7.4, when },
    tip: 'Across the widest part of the screw head, a quarter turn between readings',
  }),
  headHeight: depth('head height', {
    ...{ from: 0.8, to: 8, typical: 2.6, when },
    tip: 'Depth rod from the top of the head to its seat, the head held flat against the end of the beam',
  }),
});
