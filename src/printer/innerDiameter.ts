import { area } from '../solid/profile.ts';
import type { Contour, Vec2 } from '../solid/vector.ts';

/** Least turn that makes a corner of a wall a lip, radians: well above what facets of a rounded edge turn. */
const LIP_TURN = (10 * Math.PI) / 180;

/** Walls within this of parallel are parallel, radians, however their points were rounded. */
const PARALLEL = 1e-6;

/** 4 A / P of a closed contour, mm: the size a bore of any outline is as wide as, by the usual definition of the
 *  hydraulic diameter. A circle of facets that touch the true circle from outside gives its diameter exactly.
 *  @example holeDiameter(rectangle([2, 2])) // => 2 */
export const holeDiameter = (contour: Contour): number =>
  (4 * Math.abs(area(contour))) / lengthAlong([...contour, contour[0]!]);

/** Hydraulic diameter of a pocket as if its mouth were not there, mm, so that a bore prints alike with and
 *  without one. `wall` runs counter-clockwise around the void from lip to lip; the mouth joins its ends.
 *
 *  What lies in front of the narrowest place (a throat) does not count. The mouth there is closed by the circular
 *  arc that carries both walls on: the missing piece of the circle for a bore, a straight line for a slot whose
 *  long side is open. Half-angle p between wall and chord m: r = m / (2 sin p), area r^2 (p - sin p cos p),
 *  length 2 r p. Walls that no longer close in on each other (p of a right angle and more) are closed by the chord. */
export function pocketDiameter(wall: Contour): number {
  const [from, to] = neck(wall);
  const chamber = wall.slice(from, to + 1);
  const [a, b] = [chamber[0]!, chamber.at(-1)!];
  const chord = Math.hypot(a[0] - b[0], a[1] - b[1]);
  const along = Math.atan2(a[1] - b[1], a[0] - b[0]);
  const leaving = turned(directionOf(chamber.at(-2)!, b), along);
  const arriving = turned(along, directionOf(a, chamber[1]!));
  const half = (leaving + arriving) / 2;
  const closing =
    half > 0.01 && half < Math.PI / 2 - PARALLEL ? arc(chord, half) : { area: 0, length: chord };
  return (4 * (area(chamber) + closing.area)) / (lengthAlong(chamber) + closing.length);
}

function arc(chord: number, half: number): { area: number; length: number } {
  const radius = chord / (2 * Math.sin(half));
  return { area: radius * radius * (half - Math.sin(half) * Math.cos(half)), length: 2 * radius * half };
}

/** Indices of the two lips: the closest pair of corners that stick out into the void, one on either side of the
 *  deepest point of the wall; the ends of the wall where a side has none. */
function neck(wall: Contour): [number, number] {
  const last = wall.length - 1;
  const [a, b] = [wall[0]!, wall[last]!];
  const across = directionOf(b, a);
  // With the mouth's chord running from b to a and the void on its left, depth grows to the left.
  const depth = (p: Vec2): number => Math.cos(across) * (p[1] - b[1]) - Math.sin(across) * (p[0] - b[0]);
  let deepest = 0;
  for (let k = 1; k < last; k++) if (depth(wall[k]!) > depth(wall[deepest]!)) deepest = k;
  const entering: number[] = [];
  const leaving: number[] = [];
  for (let k = 1; k < last; k++) {
    const turn = turned(directionOf(wall[k - 1]!, wall[k]!), directionOf(wall[k]!, wall[k + 1]!));
    // Both lists start at the deep end.
    if (turn < -LIP_TURN && k < deepest) entering.unshift(k);
    if (turn < -LIP_TURN && k > deepest) leaving.push(k);
  }
  entering.push(0);
  leaving.push(last);
  let best: [number, number] = [0, last];
  let narrowest = Number.POSITIVE_INFINITY;
  for (const i of entering) {
    for (const j of leaving) {
      const width = Math.hypot(wall[i]![0] - wall[j]![0], wall[i]![1] - wall[j]![1]);
      // The inner end of a throat is met first and stays the lip when the outer one is just as wide.
      if (width < narrowest - 1e-3) {
        narrowest = width;
        best = [i, j];
      }
    }
  }
  return best;
}

/** Length of an open polyline, mm. */
function lengthAlong(points: readonly Vec2[]): number {
  let sum = 0;
  for (let k = 1; k < points.length; k++)
    sum += Math.hypot(points[k]![0] - points[k - 1]![0], points[k]![1] - points[k - 1]![1]);
  return sum;
}

/** Direction from one point to another, radians. */
export const directionOf = (from: Vec2, to: Vec2): number => Math.atan2(to[1] - from[1], to[0] - from[0]);

/** Turn from one direction to another, radians in (-pi, pi], positive to the left. */
export const turned = (from: number, to: number): number => {
  const angle = (to - from) % (2 * Math.PI);
  if (angle > Math.PI) return angle - 2 * Math.PI;
  return angle <= -Math.PI ? angle + 2 * Math.PI : angle;
};
