import type { PlannedInterface } from '../check/context.ts';
import type { Manifold, Scope } from '../solid/kernel.ts';
import { place } from '../solid/placement.ts';
import { add, cross, dot, type Placement, times, type Vec3 } from '../solid/vector.ts';
import { type Box, bounds, boxSolid, grownBox, unionOfBoxes } from './ladderBox.ts';

/** Plastic kept around a hollow, for the walls give it its feel: five lines or so; and below a post, which stands on it
 *  as in the part. Common practice, no source; mm. */
const WALL = 2.5;
const FOOT = 3;
/** Kept beside a post and before its tip: its chamfer, and the shoulder that stops it; mm. */
const BESIDE = 1.5;
const TIP = 3;
/** From this share of the part on, cutting saves nothing. */
const NEARLY_ALL = 0.8;
/** How much more than that is taken, step by step, where a piece falls apart or nothing can hold it, mm. */
export const WIDER = [0, 2, 4, 8, 16] as const;
/** A cut is shifted outwards by one of these, mm, so that it leaves no ridge thinner than a line or two. */
const SHIFTS = [0, 0.5, 1, 1.5];
/** Half the thickness of what is too thin, mm, and heights at which the piece is looked at, parts of its height. */
const THIN = 0.35;
const LOOKS = [0.15, 0.5, 0.85];

/** A feature's own extent, in the frame of the part: middle, and half a vector to each of its ends. */
interface Feature {
  readonly middle: Vec3;
  readonly halves: readonly [Vec3, Vec3, Vec3];
  readonly one: PlannedInterface;
}

/** Extents of the interfaces of a group. The way across both axis and size is as wide as another interface of the same
 *  feature says, else as the size itself. `all` are those of the part. */
function featuresOf(members: readonly PlannedInterface[], all: readonly PlannedInterface[]): Feature[] {
  return members.map((one) => {
    const third = cross(one.axis, one.across);
    const beside = all.find(
      ({ at, across, kind }) =>
        kind !== 'step' &&
        at.every((x, k) => Math.abs(x - one.at[k]!) < 1e-6) &&
        Math.abs(dot(across, third)) > 0.99,
    );
    const far = one.kind === 'step';
    return {
      one,
      // A step runs from its far end back to the face it starts from.
      middle: far ? add(one.at, times(one.across, one.drawn / 2)) : one.at,
      halves: [
        times(one.axis, one.length / 2),
        times(one.across, one.drawn / 2),
        times(third, (beside?.drawn ?? one.drawn) / 2),
      ],
    };
  });
}

/** Room around the features, mm, that must stay as it is in the part. */
const UNTOUCHED = 0.5;
/** What a post that is all there is may be held by at its root: this part of its length, and no more than so many mm. */
const ROOT = { part: 1 / 3, most: 2.2 } as const;

/** Room about the features that must stay open: around a post, and in a hollow as far as it is one with its middle. Without
 *  `roots`, posts are left to be held there. On the bed, owned by the scope. */
export function openRoom(
  scope: Scope,
  { members, all, onBed }: Omit<Cut, 'solid'>,
  piece: Manifold,
  { roots }: { readonly roots: boolean },
): Manifold {
  const rooms = featuresOf(members, all).flatMap(({ one, middle, halves }) => {
    const post = one.kind === 'post' || one.kind === 'rib';
    const left = post && !roots ? UNTOUCHED + Math.min(ROOT.most, one.length * ROOT.part) : 0;
    // A hollow ends a little inside its ends, or it would be one with everything outside.
    const along = post ? ([-left, 0] as const) : ([-UNTOUCHED - CORE, -UNTOUCHED - CORE] as const);
    const box = boxSolid(scope, grownBox(boxOf(onBed, middle, halves, along, one.axis), UNTOUCHED));
    const open = scope.keep(box.subtract(piece));
    if (post) return [open];
    const core = grownBox(bounds([place(onBed, one.at)]), CORE);
    return scope
      .keepAll(open.decompose())
      .filter((room) => !scope.keep(room.intersect(boxSolid(scope, core))).isEmpty());
  });
  return scope.keep(scope.kernel.Manifold.union(rooms));
}

/** Half the size of what counts as the middle of a hollow, mm. */
const CORE = 0.1;

/** What a region is cut from. */
interface Cut {
  readonly solid: Manifold;
  readonly members: readonly PlannedInterface[];
  /** Interfaces of the whole part. */
  readonly all: readonly PlannedInterface[];
  readonly onBed: Placement;
}

/** How far beyond its feature a rung reaches, mm more than the least, so that it hangs together and its cuts leave no thin
 *  ridges; null for the whole part, where that is hardly more. At least `wider`. */
export function regionMargin(scope: Scope, cut: Cut, wider: number): number | null {
  for (const more of WIDER.filter((each) => each >= wider)) {
    const tried = SHIFTS.map((by) => {
      const piece = cutOut(scope, cut, more + by);
      const nearlyAll = piece.volume() > NEARLY_ALL * cut.solid.volume();
      const whole = scope.keepAll(piece.decompose()).length === 1;
      return { margin: more + by, nearlyAll, whole, thin: whole ? thinArea(scope, piece) : Infinity };
    });
    if (tried[0]!.nearlyAll) return null;
    const [best] = tried.filter(({ whole }) => whole).sort((a, b) => a.thin - b.thin || a.margin - b.margin);
    if (best) return best.nearlyAll ? null : best.margin;
  }
  return null;
}

/** What is cut out of the part for one rung: the features of a group with the plastic that gives them their feel, and all
 *  that lies below down to the bed, so that it prints as in the part. `solid` lies on the bed; a margin of null takes
 *  all of it. Owned by the scope. */
export const ladderRegion = (scope: Scope, cut: Cut, margin: number | null): Manifold =>
  margin === null ? cut.solid : cutOut(scope, cut, margin);

function cutOut(scope: Scope, { solid, members, all, onBed }: Cut, wider: number): Manifold {
  const boxes = featuresOf(members, all).map(({ one, middle, halves }) => {
    const post = one.kind === 'post' || one.kind === 'rib';
    const [along, sideways]: [readonly [number, number], number] = post
      ? [[FOOT + wider, TIP], BESIDE + wider]
      : [[wider, wider], WALL + wider];
    const [axis, across, third] = halves;
    const wide = [
      axis,
      add(across, times(one.across, sideways)),
      add(third, times(cross(one.axis, one.across), sideways)),
    ] as const;
    return boxOf(onBed, middle, wide, along, one.axis);
  });
  const { min, max } = unionOfBoxes(boxes);
  const region = boxSolid(scope, { min: [min[0], min[1], Math.min(0, min[2]) - 1], max });
  return scope.keep(solid.intersect(region));
}

/** Area of what is thinner than two lines in a few sections of a piece, mm^2, in whole tenths: what lies closer counts as
 *  equal. */
function thinArea(scope: Scope, piece: Manifold): number {
  const { min, max } = piece.boundingBox();
  const areas = LOOKS.map((part) => {
    const section = scope.keep(piece.slice(min[2] + part * (max[2] - min[2])));
    const opened = scope.keep(scope.keep(section.offset(-THIN, 'Miter', 4)).offset(THIN, 'Miter', 4));
    return section.area() - opened.area();
  });
  return Math.round(10 * Math.max(...areas)) / 10;
}

/** Box on the bed around a feature, its axis made longer by `along`: before its root, beyond its tip. */
function boxOf(
  onBed: Placement,
  middle: Vec3,
  [axis, across, third]: readonly [Vec3, Vec3, Vec3],
  along: readonly [number, number],
  way: Vec3 = [0, 0, 0],
): Box {
  const [root, tip] = [
    add(add(middle, times(axis, -1)), times(way, -along[0])),
    add(add(middle, axis), times(way, along[1])),
  ];
  const corners = [root, tip].flatMap((end) =>
    [-1, 1].flatMap((a) => [-1, 1].map((b) => add(end, add(times(across, a), times(third, b))))),
  );
  return bounds(corners.map((corner) => place(onBed, corner)));
}
