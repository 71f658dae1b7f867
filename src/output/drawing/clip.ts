import type { Vec2 } from '../../solid/vector.ts';
import type { Box, Segment } from './view.ts';

/** The part of a segment inside of a box, or null (Liang and Barsky's parametric clipping). */
export function clipSegment([p, q]: Segment, { min, max }: Box): Segment | null {
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  let [from, to] = [0, 1];
  for (const [step, room] of [
    [-dx, p[0] - min[0]],
    [dx, max[0] - p[0]],
    [-dy, p[1] - min[1]],
    [dy, max[1] - p[1]],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null;
    } else if (step < 0) from = Math.max(from, room / step);
    else to = Math.min(to, room / step);
  }
  if (to - from < 1e-9) return null;
  const at = (t: number): Vec2 => [p[0] + t * dx, p[1] + t * dy];
  return [at(from), at(to)];
}

/** A closed contour cut down to a box (Sutherland and Hodgman); empty when nothing is left. Winding is kept, so a
 *  region of several contours may be cut one by one. */
export function clipContour(contour: readonly Readonly<Vec2>[], { min, max }: Box): Vec2[] {
  let points: Vec2[] = contour.map(([x, y]) => [x, y]);
  for (const [axis, limit, side] of [
    [0, min[0], 1],
    [0, max[0], -1],
    [1, min[1], 1],
    [1, max[1], -1],
  ] as const) {
    const inside = (p: Readonly<Vec2>): number => side * (p[axis] - limit);
    points = points.flatMap((p, k): Vec2[] => {
      const previous = points.at(k - 1)!;
      const [d, e] = [inside(previous), inside(p)];
      const crossing: Vec2[] = [];
      if (d * e < 0) {
        const t = d / (d - e);
        crossing.push([previous[0] + t * (p[0] - previous[0]), previous[1] + t * (p[1] - previous[1])]);
      }
      return e >= 0 ? [...crossing, p] : crossing;
    });
  }
  return points;
}
