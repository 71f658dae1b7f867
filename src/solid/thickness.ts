import { area } from './profile.ts';
import type { Contour, Vec2 } from './vector.ts';

/** The narrowest place between two walls of an outline. */
export interface Narrowest {
  /** Diameter of the largest disc that fits there, mm. */
  readonly width: number;
  /** Its middle. */
  readonly at: Vec2;
  /** Unit vector square to one of the walls. */
  readonly across: Vec2;
}

/** Distance between the places of a side that are tried, mm. Only a neck between two straight sides that are not
 *  parallel can hide between two of them, and then by less than this times the slope between them. */
const SPACING = 0.25;

/** A disc stands between two walls when the points it touches lie at least this far apart around its middle.
 *  The rest of the half turn is the angle at which two sides meet: sides that meet at more than 45 degrees are a
 *  corner, in which every outline has discs of all sizes down to nothing. */
const OPPOSED = Math.cos((135 * Math.PI) / 180);

/** A sharp corner is allowed to lose this much of its tip before the tip counts as a wall, mm. Two and a half
 *  strands; common practice, no source. */
const TIP = 1;

/** Corners below this have a tip, radians. Well above the 45 degrees of `OPPOSED`, because sides may curve, and well
 *  below the right angle at the end of a thin wall, which is a wall to its end. */
const SHARP = (75 * Math.PI) / 180;

/** How much further along the outline than straight two points of one tip may lie. */
const TIP_DETOUR = 1.2;

/** Gaps below this count as touching, mm: what rounding leaves where a disc touches several sides at once. */
const TOUCH = 1e-6;

/** Sides that meet at less than this are facets of a round, radians: a circle has twelve or more. */
const FACET = (31 * Math.PI) / 180;

/** Steps in which the directions at a re-entrant corner are tried, radians. */
const FAN = (10 * Math.PI) / 180;

/** Sides shorter than this have no dependable direction, mm; they still stop a disc. */
const SHORTEST_SIDE = 1e-4;

/** Thinnest wall of an outline: the smallest inscribed disc that touches the outline on two opposite sides.
 *  Outer contours counter-clockwise, holes clockwise. A corner is no thin wall, however sharp, unless more than
 *  1 mm of its tip is thinner than the answer. An outline without opposite sides gives its largest disc.
 *  Null when nothing is below `below` mm, or there is no outline. Places that `counts` turns down are passed over. Exact between parallel sides and between a
 *  corner and a side; O(places * sides) at worst, with most sides turned away by their box.
 *  @example thinnestWall([rectangle([10, 0.8])]) // => { width: 0.8, ... } */
export const thinnestWall = (
  contours: readonly Contour[],
  below = Infinity,
  counts: (place: Narrowest) => boolean = always,
): Narrowest | null => narrowest(contours, below, counts);

/** Narrowest gap of an outline, between two walls or across a hole: `thinnestWall` of what is not material.
 *  Null when no two walls face each other across less than `below` mm.
 *  @example narrowestGap([rectangle([10, 10]), circle(2, [0, 0], { sense: 'bore' }).reverse()]) // width 2 */
export const narrowestGap = (
  contours: readonly Contour[],
  below = Infinity,
  counts: (place: Narrowest) => boolean = always,
): Narrowest | null =>
  narrowest(
    contours.map((contour) => contour.toReversed()),
    below,
    counts,
  );

const always = (): boolean => true;

function narrowest(
  contours: readonly Contour[],
  below: number,
  counts: (place: Narrowest) => boolean,
): Narrowest | null {
  const sides = sidesOf(contours);
  let best: Narrowest | null = null;
  let limit = Math.min(below, 2 * sides.reach);
  contours.forEach((contour, c) => {
    let roomy = false;
    let widest: Narrowest | null = null;
    let found = false;
    for (const place of placesOf(sides, c)) {
      const radius = largestDisc(sides, place, limit / 2);
      if (radius === null) {
        roomy = true;
        continue;
      }
      const disc: Narrowest = {
        width: 2 * radius,
        at: [place.x + place.nx * radius, place.y + place.ny * radius],
        across: [place.nx, place.ny],
      };
      if (widest === null || disc.width > widest.width) widest = disc;
      if (!standsBetweenWalls(sides, place, radius)) continue;
      found = true;
      if (!counts(disc)) continue;
      best = disc;
      limit = disc.width;
    }
    // Every disc lies in a corner: a lone triangle is as thin as its largest disc.
    if (found || roomy || widest === null || area(contour) <= 0 || !counts(widest)) return;
    best = widest;
    limit = (widest as Narrowest).width;
  });
  return best;
}

/** Sides of all contours in flat arrays, material on the left. */
interface Sides {
  readonly count: number;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly bx: Float64Array;
  readonly by: Float64Array;
  readonly lowX: Float64Array;
  readonly highX: Float64Array;
  readonly lowY: Float64Array;
  readonly highY: Float64Array;
  /** By how much the round that a side is a facet of turns from its direction, at its start and its end, radians. */
  readonly bentAtStart: Float64Array;
  readonly bentAtEnd: Float64Array;
  /** Length of each, and of the way along its contour to its start. */
  readonly length: Float64Array;
  readonly start: Float64Array;
  /** Contour of each side, and first side and length around of each contour. */
  readonly contour: Uint32Array;
  readonly first: readonly number[];
  readonly around: readonly number[];
  /** Sharp corners, by the side that starts there. */
  readonly sharp: readonly number[];
  /** Diagonal of the whole. */
  readonly reach: number;
}

function sidesOf(contours: readonly Contour[]): Sides {
  const count = contours.reduce((sum, contour) => sum + contour.length, 0);
  const array = () => new Float64Array(count);
  const [ax, ay, bx, by, length, start] = [array(), array(), array(), array(), array(), array()];
  const [lowX, highX, lowY, highY] = [array(), array(), array(), array()];
  const contourOf = new Uint32Array(count);
  const first: number[] = [];
  const around: number[] = [];
  const sharp: number[] = [];
  const box = [Infinity, Infinity, -Infinity, -Infinity] as [number, number, number, number];
  let side = 0;
  contours.forEach((contour, c) => {
    first.push(side);
    let way = 0;
    contour.forEach(([x, y], i) => {
      const [u, v] = contour[(i + 1) % contour.length]!;
      [ax[side], ay[side], bx[side], by[side]] = [x, y, u, v];
      [lowX[side], highX[side], lowY[side], highY[side]] = [
        Math.min(x, u),
        Math.max(x, u),
        Math.min(y, v),
        Math.max(y, v),
      ];
      length[side] = Math.hypot(u - x, v - y);
      start[side] = way;
      contourOf[side] = c;
      way += length[side]!;
      box[0] = Math.min(box[0], x);
      box[1] = Math.min(box[1], y);
      box[2] = Math.max(box[2], x);
      box[3] = Math.max(box[3], y);
      side++;
    });
    around.push(way);
  });
  const sides = {
    ...{ count, ax, ay, bx, by, lowX, highX, lowY, highY, length, start },
    ...{ bentAtStart: array(), bentAtEnd: array() },
    ...{ contour: contourOf, first, around, sharp },
    reach: count === 0 ? 0 : Math.hypot(box[2] - box[0], box[3] - box[1]),
  };
  for (let s = 0; s < count; s++) {
    const turn = turnAt(sides, s);
    if (turn > Math.PI - SHARP) sharp.push(s);
    if (Math.abs(turn) > FACET) continue;
    // Of two sides the shorter one bends: a flat that runs into a round stays flat.
    const last = before(sides, s, count);
    const share = length[last]! / (length[last]! + length[s]!);
    sides.bentAtStart[s] = -turn * share;
    sides.bentAtEnd[last] = turn * (1 - share);
  }
  return sides;
}

/** The side before, around the same contour. */
function before({ first, contour }: Pick<Sides, 'first' | 'contour'>, side: number, count: number): number {
  const c = contour[side]!;
  return side > first[c]! ? side - 1 : (first[c + 1] ?? count) - 1;
}

/** Turn at the start of a side, radians, left positive: above 0 at a corner of material. */
function turnAt(sides: Sides, side: number): number {
  const last = before(sides, side, sides.count);
  const [ux, uy] = [sides.bx[last]! - sides.ax[last]!, sides.by[last]! - sides.ay[last]!];
  const [vx, vy] = [sides.bx[side]! - sides.ax[side]!, sides.by[side]! - sides.ay[side]!];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** By how much the round that a side is a facet of turns from it at a share of its length, radians. */
const bentAt = ({ bentAtStart, bentAtEnd }: Sides, side: number, share: number): number =>
  bentAtStart[side]! + (bentAtEnd[side]! - bentAtStart[side]!) * share;

/** A point of the outline and a direction into the material in which a disc may grow from it. */
interface Place {
  readonly x: number;
  readonly y: number;
  readonly nx: number;
  readonly ny: number;
  readonly side: number;
  /** For a corner the other side that meets there; else the side itself. */
  readonly other: number;
  /** By how much the round that the side is a facet of turns from it here, radians. */
  readonly bent: number;
}

function* placesOf(sides: Sides, contour: number): Generator<Place> {
  const end = sides.first[contour + 1] ?? sides.count;
  for (let side = sides.first[contour]!; side < end; side++) {
    const length = sides.length[side]!;
    if (length < SHORTEST_SIDE) continue;
    const [x, y] = [sides.ax[side]!, sides.ay[side]!];
    const [dx, dy] = [sides.bx[side]! - x, sides.by[side]! - y];
    // An odd number, so that the middle is among them: there a facet of a round sees the whole round, elsewhere
    // only the corner it makes with the next.
    const steps = 2 * Math.ceil(Math.max(0, length / SPACING - 1) / 2) + 1;
    for (let k = 0; k < steps; k++) {
      const t = (k + 0.5) / steps;
      yield {
        x: x + t * dx,
        y: y + t * dy,
        nx: -dy / length,
        ny: dx / length,
        side,
        other: side,
        bent: bentAt(sides, side, t),
      };
    }
    const turn = turnAt(sides, side);
    if (turn >= 0) continue;
    // A re-entrant corner faces every direction between those of its two sides.
    const inward = Math.atan2(dx, -dy);
    const fan = Math.ceil(-turn / FAN);
    const other = before(sides, side, sides.count);
    for (let k = 0; k < fan; k++) {
      const angle = inward - (turn * (k + 0.5)) / fan;
      yield { x, y, nx: Math.cos(angle), ny: Math.sin(angle), side, other, bent: 0 };
    }
  }
}

/** Radius of the largest disc that touches the outline at `place` and has none of it inside; null when that is
 *  `below` mm or more. */
function largestDisc(sides: Sides, place: Place, below: number): number | null {
  const { x, y, nx, ny } = place;
  let radius = below;
  for (let s = 0; s < sides.count; s++) {
    if (apart(sides, s, x + nx * radius, y + ny * radius, radius)) continue;
    if (s === place.side || s === place.other) continue;
    touch(sides, s, place);
    if (touching.radius < radius) radius = touching.radius;
  }
  return radius < below ? radius : null;
}

/** Whether a side's box and a disc's box do not meet. */
const apart = (sides: Sides, s: number, x: number, y: number, radius: number): boolean =>
  sides.lowX[s]! > x + radius ||
  sides.highX[s]! < x - radius ||
  sides.lowY[s]! > y + radius ||
  sides.highY[s]! < y - radius;

/** Answer of `touch`, reused: this runs for every pair of place and side that come near each other. */
const touching = { radius: Infinity, x: 0, y: 0, share: 0 };

/** Radius at which the disc growing from `place` meets a side, and where; Infinity when the side lies behind.
 *  A point v away from the place, in direction n, is met at radius |v|^2 / (2 v.n), which is convex along a side. */
function touch(sides: Sides, s: number, { x, y, nx, ny }: Place): void {
  const [ax, ay] = [sides.ax[s]! - x, sides.ay[s]! - y];
  const [dx, dy] = [sides.bx[s]! - sides.ax[s]!, sides.by[s]! - sides.ay[s]!];
  const a = ax * nx + ay * ny;
  const d = dx * nx + dy * ny;
  touching.radius = Infinity;
  if (a <= AHEAD && a + d <= AHEAD) return;
  const aa = ax * ax + ay * ay;
  const ad = ax * dx + ay * dy;
  const dd = dx * dx + dy * dy;
  let t: number;
  if (Math.abs(d) < 1e-12) {
    t = -ad / dd;
  } else {
    // Zero of the derivative: dd d t^2 + 2 dd a t + (2 ad a - aa d) = 0, the root on the side where v.n > 0.
    const root = Math.sqrt(Math.max(0, dd * a * (dd * a) - dd * d * (2 * ad * a - aa * d)));
    t = (-dd * a + root) / (dd * d);
  }
  t = Math.min(1, Math.max(0, t));
  const [vx, vy] = [ax + t * dx, ay + t * dy];
  const ahead = vx * nx + vy * ny;
  if (ahead <= AHEAD) return;
  touching.radius = (vx * vx + vy * vy) / (2 * ahead);
  touching.x = x + vx;
  touching.y = y + vy;
  touching.share = t;
}

/** Points no further ahead than this lie beside the place, mm. */
const AHEAD = 1e-9;

/** Whether the disc touches a wall opposite its place, other than two sides of one sharp tip. Rounds count as what they are facets
 *  of, so that how fine the facets are makes no difference. */
function standsBetweenWalls(sides: Sides, place: Place, radius: number): boolean {
  const loose = radius + TOUCH;
  const [x, y] = [place.x + place.nx * loose, place.y + place.ny * loose];
  const inward = Math.atan2(place.ny, place.nx) + place.bent;
  for (let s = 0; s < sides.count; s++) {
    if (s === place.side || s === place.other || apart(sides, s, x, y, loose)) continue;
    touch(sides, s, place);
    if (touching.radius > loose) continue;
    if (Math.cos(outwardAt(sides, s, place) - inward) < -OPPOSED) continue;
    if (!inTip(sides, place, radius, s)) return true;
  }
  return false;
}

/** Direction out of the material where the disc touches a side, radians: that of its round, or the way to the very corner. `touching`
 *  holds the point. */
function outwardAt(sides: Sides, side: number, { x, y, nx, ny }: Place): number {
  const { radius, share } = touching;
  if (share <= 0 || share >= 1) return Math.atan2(touching.y - y - ny * radius, touching.x - x - nx * radius);
  const [dx, dy] = [sides.bx[side]! - sides.ax[side]!, sides.by[side]! - sides.ay[side]!];
  return Math.atan2(-dx, dy) + bentAt(sides, side, share);
}

/** Whether the disc touches the two sides of a sharp corner whose tip sticks out no more than `TIP` beyond it.
 *  `touching` holds the other point. */
function inTip(sides: Sides, place: Place, radius: number, side: number): boolean {
  const { x: qx, y: qy } = touching;
  return sides.sharp.some((corner) => {
    const [x, y] = [sides.ax[corner]!, sides.ay[corner]!];
    const beyond = Math.hypot(x - place.x - place.nx * radius, y - place.y - place.ny * radius) - radius;
    if (beyond > TIP) return false;
    const p = wayFrom(sides, corner, place.side, place.x, place.y);
    const q = wayFrom(sides, corner, side, qx, qy);
    return (
      p * q < 0 &&
      Math.abs(p) <= TIP_DETOUR * Math.hypot(place.x - x, place.y - y) &&
      Math.abs(q) <= TIP_DETOUR * Math.hypot(qx - x, qy - y)
    );
  });
}

/** Way along the outline from a corner to a point of a side, mm, the shorter way round: positive with the contour;
 *  Infinity when the point lies on another contour. */
function wayFrom(sides: Sides, corner: number, side: number, x: number, y: number): number {
  const c = sides.contour[corner]!;
  if (sides.contour[side] !== c) return Infinity;
  const around = sides.around[c]!;
  const along = sides.start[side]! + Math.hypot(x - sides.ax[side]!, y - sides.ay[side]!);
  const way = along - sides.start[corner]!;
  const forward = way < 0 ? way + around : way;
  return forward <= around / 2 ? forward : forward - around;
}
