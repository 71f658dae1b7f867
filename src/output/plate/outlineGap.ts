import type { Contour, Vec2 } from '../../solid/vector.ts';

/** Distance between two shapes given by their outer contours, mm; 0 where they touch or overlap. Exact but for rounding:
 *  the least over all pairs of sides, unless one lies inside the other. */
export function outlineGap(a: readonly Contour[], b: readonly Contour[]): number {
  if (b.some((contour) => encloses(a, contour[0]!)) || a.some((contour) => encloses(b, contour[0]!)))
    return 0;
  let least = Infinity;
  for (const [p, q] of sidesOf(a))
    for (const [r, s] of sidesOf(b)) least = Math.min(least, between(p, q, r, s));
  return Math.sqrt(least);
}

type Point = Readonly<Vec2>;

const sidesOf = (contours: readonly Contour[]): (readonly [Point, Point])[] =>
  contours.flatMap((contour) => contour.map((p, k) => [p, contour[(k + 1) % contour.length]!] as const));

/** Whether a point lies in any of the contours. */
const encloses = (contours: readonly Contour[], [x, y]: Point): boolean =>
  contours.some((contour) => {
    let inside = false;
    let [ax, ay] = contour.at(-1)!;
    for (const [bx, by] of contour) {
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
      [ax, ay] = [bx, by];
    }
    return inside;
  });

/** Square of the distance between two straight sides. */
function between(p: Point, q: Point, r: Point, s: Point): number {
  if (cross(p, q, r) * cross(p, q, s) < 0 && cross(r, s, p) * cross(r, s, q) < 0) return 0;
  return Math.min(toSide(p, r, s), toSide(q, r, s), toSide(r, p, q), toSide(s, p, q));
}

const cross = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Square of the distance from a point to a side. */
function toSide([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / long));
  return (ax + t * dx - x) ** 2 + (ay + t * dy - y) ** 2;
}
