import type { Contour, Vec2 } from '../solid/vector.ts';

/** Distance from a point to the nearest side of any contour, mm; Infinity without contours. */
export function distanceToSides([x, y]: Readonly<Vec2>, contours: readonly Contour[]): number {
  let least = Infinity;
  for (const contour of contours) {
    let [ax, ay] = contour.at(-1)!;
    for (const [bx, by] of contour) {
      const [dx, dy] = [bx - ax, by - ay];
      const long = dx * dx + dy * dy;
      const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / long));
      const [u, v] = [ax + t * dx - x, ay + t * dy - y];
      least = Math.min(least, u * u + v * v);
      [ax, ay] = [bx, by];
    }
  }
  return Math.sqrt(least);
}

/** Whether a point lies inside contours, holes left out; on a side it may be either. */
export function contains(contours: readonly Contour[], [x, y]: Readonly<Vec2>): boolean {
  let inside = false;
  for (const contour of contours) {
    let [ax, ay] = contour.at(-1)!;
    for (const [bx, by] of contour) {
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
      [ax, ay] = [bx, by];
    }
  }
  return inside;
}

/** Length of the straight cut through a point along a unit vector, from the nearest side one way to the nearest the
 *  other way, mm; Infinity where a way meets none. */
export function chordThrough(
  [x, y]: Readonly<Vec2>,
  [ux, uy]: Readonly<Vec2>,
  contours: readonly Contour[],
): number {
  let [ahead, behind] = [Infinity, Infinity];
  for (const contour of contours) {
    let [px, py] = contour.at(-1)!;
    for (const [qx, qy] of contour) {
      const p = ux * (py - y) - uy * (px - x);
      const q = ux * (qy - y) - uy * (qx - x);
      if (p > 0 !== q > 0) {
        const t = p / (p - q);
        const way = ux * (px + t * (qx - px) - x) + uy * (py + t * (qy - py) - y);
        if (way >= 0) ahead = Math.min(ahead, way);
        else behind = Math.min(behind, -way);
      }
      [px, py] = [qx, qy];
    }
  }
  return ahead + behind;
}

/** Smallest convex contour around points, counter-clockwise, without points on its sides (monotone chain). Fewer
 *  than three points when they lie on a line. */
export function convexHull(points: readonly Readonly<Vec2>[]): Contour {
  const sorted = points.toSorted((p, q) => p[0] - q[0] || p[1] - q[1]);
  const chain = (of: readonly Readonly<Vec2>[]): Contour => {
    const kept: Contour = [];
    for (const [x, y] of of) {
      while (kept.length >= 2) {
        const [[ax, ay], [bx, by]] = [kept.at(-2)!, kept.at(-1)!];
        if ((bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0) break;
        kept.pop();
      }
      kept.push([x, y]);
    }
    kept.pop();
    return kept;
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}

/** Distance from a point to the nearest side of a convex counter-clockwise contour, mm: positive inside, negative
 *  outside; -Infinity when the contour encloses nothing. */
export function depthInside([x, y]: Readonly<Vec2>, hull: Contour): number {
  if (hull.length < 3) return -Infinity;
  const nearest = distanceToSides([x, y], [hull]);
  return contains([hull], [x, y]) ? nearest : -nearest;
}
