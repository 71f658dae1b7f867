import { type Scope, withScope } from '../solid/kernel.ts';
import { area } from '../solid/profile.ts';
import type { Contour, Vec2 } from '../solid/vector.ts';
import { directionOf, holeDiameter, pocketDiameter, turned } from './innerDiameter.ts';

/** A void with walls around it: a hole, or a pocket that opens to the outside through a mouth. Its walls print as
 *  walls of a bore do. Lengths in mm. */
export interface InnerRegion {
  /** Counter-clockwise around the void. For a pocket from lip to lip; the mouth joins last point and first. */
  readonly wall: Contour;
  readonly open: boolean;
  /** Hydraulic diameter 4 A / P as drawn, that of a pocket as if its mouth were closed. */
  readonly diameter: number;
}

/** One outline of a section with the voids in it. */
export interface Outline {
  /** Counter-clockwise, pockets bridged by the chord of their mouths. */
  readonly outer: Contour;
  readonly inner: readonly InnerRegion[];
}

/** Reach of the closing that finds pockets, mm: mouths up to twice this are mouths, wider ones are plain outside.
 *  Wide enough for the bars and lips the families use (to 4 mm), narrow enough to leave posts side by side apart. */
const MOUTH_REACH = 3;
/** The closed outline is held back by this much, mm, so that rounding (1e-8) does not ring the part with slivers. */
const HOLD_BACK = 1e-4;
/** A lip found this close to a vertex of the outline is that vertex, mm: what holding back moves it by. */
const SNAP = 2e-3;
/** Area below which a void is rounding, mm^2. */
const SPECK = 1e-4;
/** The two sides of a pocket face each other: some stretch of its wall turns by at least this, radians. A groove
 *  of 30 degrees still counts, the corner between a post and the body it stands on (90 degrees) does not. */
const FACING = (150 * Math.PI) / 180;
/** Mean depth over width of the mouth from which a recess is a pocket. A half-round groove has 0.39. */
const DEPTH = 0.25;

/** Sorts the contours of a section (outer ones counter-clockwise, holes clockwise) into outlines and finds the
 *  pockets in each by morphological closing. Each outline is closed by itself: a gap between two bodies is no
 *  pocket, posts that stand apart print as posts. Contours come back in the frame they were given in. */
export function outlinesOf(scope: Scope, contours: readonly Contour[]): Outline[] {
  const outers = contours.filter((contour) => area(contour) > 0);
  const holes = contours.filter((contour) => area(contour) < -SPECK);
  const held = outers.map((outer): { outer: Contour; holes: Contour[] } => ({ outer, holes: [] }));
  for (const hole of holes) home(held, hole)?.holes.push(hole);
  return held.map(({ outer, holes }) => {
    const pockets = pocketsOf(scope, outer);
    return {
      outer: bridged(outer, pockets),
      inner: [
        ...holes.map((hole) => ({
          wall: hole.toReversed(),
          open: false,
          diameter: holeDiameter(hole),
        })),
        ...pockets.map(({ wall }) => ({ wall, open: true, diameter: pocketDiameter(wall) })),
      ],
    };
  });
}

/** The outline a hole belongs to: the smallest one around it. */
function home<T extends { outer: Contour }>(outlines: readonly T[], hole: Contour): T | undefined {
  if (outlines.length < 2) return outlines[0];
  return outlines
    .filter(({ outer }) => surrounds(outer, hole[0]!))
    .sort((a, b) => area(a.outer) - area(b.outer))[0];
}

/** Whether a point lies inside a contour, by crossings. */
function surrounds(contour: Contour, [x, y]: Vec2): boolean {
  let inside = false;
  for (let k = 0; k < contour.length; k++) {
    const [p, q] = [contour[k]!, contour[(k + 1) % contour.length]!];
    if (p[1] > y !== q[1] > y && x < p[0] + ((y - p[1]) / (q[1] - p[1])) * (q[0] - p[0])) inside = !inside;
  }
  return inside;
}

/** A pocket of an outline; `from` and `to` are places on the outline, in its direction. */
interface Pocket {
  readonly wall: Contour;
  readonly from: Place;
  readonly to: Place;
}

/** A point on an outline: `s` is the number of its edge plus the share of the edge passed. */
interface Place {
  readonly s: number;
  readonly point: Vec2;
  readonly distance: number;
}

function pocketsOf(scope: Scope, outer: Contour): Pocket[] {
  if (isConvex(outer)) return [];
  return voidsOf(scope, outer).flatMap((contour) => pocketOf(outer, contour) ?? []);
}

/** What a closing fills, as contours. Grown with sharp corners, so that a plain corner of the outline closes to
 *  itself; shrunk with square ones, because a sharp one would reach from a flare past the lips into the bore.
 *  Everything the grown outline encloses is filled: a bore behind a narrow mouth may be of any size. */
function voidsOf({ kernel }: Scope, outer: Contour): Contour[] {
  return withScope(kernel, (scope) => {
    const own = scope.keep(new kernel.CrossSection([outer]));
    const grown = scope.keep(own.offset(MOUTH_REACH, 'Miter', 2));
    const filled = grown.toPolygons().filter((contour) => area(contour) > 0);
    const closed = scope.keep(
      scope.keep(new kernel.CrossSection(filled)).offset(-(MOUTH_REACH + HOLD_BACK), 'Square'),
    );
    return scope
      .keep(closed.subtract(own))
      .toPolygons()
      .filter((contour) => area(contour) > SPECK);
  });
}

/** The void as a pocket of the outline, or null when it is too shallow or its sides do not face each other. */
function pocketOf(outer: Contour, contour: Contour): Pocket | null {
  const mouth = mouthOf(outer, contour);
  if (mouth === null) return null;
  const [b, a] = mouth;
  const [from, to] = [placeOn(outer, b), placeOn(outer, a)];
  const wall = [from.point, ...between(outer, from.s, to.s), to.point].toReversed();
  const chord = Math.hypot(from.point[0] - to.point[0], from.point[1] - to.point[1]);
  return area(wall) >= DEPTH * chord * chord && mostTurn(wall) >= FACING ? { wall, from, to } : null;
}

/** Largest turn to the left along any stretch of a wall, radians; what flares turn back does not lessen it. */
function mostTurn(wall: Contour): number {
  let turn = 0;
  let most = 0;
  for (let k = 2; k < wall.length; k++) {
    turn += turned(directionOf(wall[k - 2]!, wall[k - 1]!), directionOf(wall[k - 1]!, wall[k]!));
    turn = Math.max(0, turn);
    most = Math.max(most, turn);
  }
  return most;
}

/** First and last point of the one stretch of the void's contour that does not lie on the outline. An outline is
 *  simple and in one piece, so a void beside it has one mouth; anything else is rounding. */
function mouthOf(outer: Contour, contour: Contour): [Vec2, Vec2] | null {
  const n = contour.length;
  const open = contour.map((p, k) => {
    const q = contour[(k + 1) % n]!;
    return placeOn(outer, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]).distance > 2 * HOLD_BACK;
  });
  const starts = open.flatMap((is, k) => (is && !open[(k + n - 1) % n] ? [k] : []));
  if (starts.length !== 1) return null;
  let end = starts[0]!;
  while (open[end % n]) end++;
  return [contour[starts[0]!]!, contour[end % n]!];
}

function placeOn(outer: Contour, p: Vec2): Place {
  let best: Place = { s: 0, point: outer[0]!, distance: Number.POSITIVE_INFINITY };
  for (let k = 0; k < outer.length; k++) {
    const [a, b] = [outer[k]!, outer[(k + 1) % outer.length]!];
    const [u, v] = [b[0] - a[0], b[1] - a[1]];
    const length = Math.hypot(u, v);
    const t = Math.min(1, Math.max(0, ((p[0] - a[0]) * u + (p[1] - a[1]) * v) / (length * length)));
    const point: Vec2 = [a[0] + t * u, a[1] + t * v];
    const distance = Math.hypot(p[0] - point[0], p[1] - point[1]);
    if (distance >= best.distance) continue;
    if (t * length < SNAP) best = { s: k, point: a, distance };
    else if ((1 - t) * length < SNAP) best = { s: (k + 1) % outer.length, point: b, distance };
    else best = { s: k + t, point, distance };
  }
  return best;
}

/** Vertices strictly between two places, going on along the contour. */
function between(contour: Contour, from: number, to: number): Vec2[] {
  const n = contour.length;
  const end = to > from ? to : to + n;
  const points: Vec2[] = [];
  for (let k = Math.floor(from) + 1; k < end; k++) points.push(contour[k % n]!);
  return points;
}

/** The outline with each pocket cut off along the chord of its mouth. */
function bridged(outer: Contour, pockets: readonly Pocket[]): Contour {
  if (pockets.length === 0) return outer;
  const order = pockets.toSorted((p, q) => p.from.s - q.from.s);
  return order.flatMap(({ to }, k) => {
    const { from } = order[(k + 1) % order.length]!;
    return [to.point, ...between(outer, to.s, from.s), from.point];
  });
}

function isConvex(contour: Contour): boolean {
  const n = contour.length;
  return contour.every((p, k) => {
    const [q, r] = [contour[(k + 1) % n]!, contour[(k + 2) % n]!];
    return (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]) >= -1e-9;
  });
}
