import type { Vec2 } from '../solid/vector.ts';
import { demand } from './demand.ts';

/** Outermost of the points on which something stands: indices counter-clockwise, points amid an edge left out.
 *
 *  Andrew's monotone chain. Throws `RangeError` for fewer than three points or points on one line, on which nothing stands.
 *  @example supportPolygon([[0, 0], [10, 0], [5, 2], [10, 10], [0, 10]]) // => [0, 1, 3, 4] */
export function supportPolygon(points: readonly Readonly<Vec2>[]): number[] {
  demand('stand', 'feet', points.length, points.length >= 3, '3 or more');
  for (const [x, y] of points)
    demand('stand', 'positions', x + y, Number.isFinite(x + y), 'that are finite numbers of mm');
  const order = points
    .map((_, i) => i)
    .sort((i, j) => points[i]![0] - points[j]![0] || points[i]![1] - points[j]![1]);
  const chain = (indices: readonly number[]): number[] => {
    const kept: number[] = [];
    for (const i of indices) {
      while (kept.length >= 2 && !turnsLeft(points, kept[kept.length - 2]!, kept[kept.length - 1]!, i))
        kept.pop();
      kept.push(i);
    }
    return kept.slice(0, -1);
  };
  const hull = [...chain(order), ...chain([...order].reverse())];
  if (hull.length < 3) throw new RangeError('stand requires feet that are not on one line');
  return hull;
}

function turnsLeft(points: readonly Readonly<Vec2>[], i: number, j: number, k: number): boolean {
  const [a, b, c] = [points[i]!, points[j]!, points[k]!];
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  // Relative to the lengths, so that rounding of positions makes no corner.
  return ux * vy - uy * vx > 1e-12 * (Math.hypot(ux, uy) * Math.hypot(vx, vy));
}

/** The edge of a support polygon that lies nearest to a point, and how far inside it is. */
export interface NearestEdge {
  /** Indices of the two feet over which it would tip. */
  readonly feet: readonly [number, number];
  /** Distance from the line through them, mm; negative outside. */
  readonly inside: number;
}

/** Which edge a centre of gravity is closest to crossing. Throws as `supportPolygon`.
 *  @example nearestEdge([[0, 0], [20, 0], [20, 10], [0, 10]], [10, 4]) // => { feet: [0, 1], inside: 4 } */
export function nearestEdge(points: readonly Readonly<Vec2>[], centre: Readonly<Vec2>): NearestEdge {
  const hull = supportPolygon(points);
  let nearest: NearestEdge = { feet: [0, 0], inside: Infinity };
  for (const [k, i] of hull.entries()) {
    const j = hull[(k + 1) % hull.length]!;
    const [a, b] = [points[i]!, points[j]!];
    const [ex, ey] = [b[0] - a[0], b[1] - a[1]];
    const inside = (ex * (centre[1] - a[1]) - ey * (centre[0] - a[0])) / Math.hypot(ex, ey);
    if (inside < nearest.inside) nearest = { feet: [i, j], inside };
  }
  return nearest;
}
