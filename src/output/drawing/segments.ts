import type { Vec2 } from '../../solid/vector.ts';
import type { Box, Segment } from './view.ts';

/** How far an outline reaches from the line a-b to one side of it, mm, 0 or above: `side` 1 is to the left of the way from
 *  a to b, -1 to the right.
 *  @example reachOf([[0, 0], [4, 0]], { min: [0, 0], max: [4, 3] }, 1) // => 3 */
export function reachOf([a, b]: Segment, { min, max }: Box, side: number): number {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [nx, ny] = [(-side * (b[1] - a[1])) / length, (side * (b[0] - a[0])) / length];
  const corners = [
    [min[0], min[1]],
    [max[0], min[1]],
    [min[0], max[1]],
    [max[0], max[1]],
  ] as const;
  return Math.max(0, ...corners.map(([x, y]) => nx * (x - a[0]) + ny * (y - a[1])));
}

/** Whether two lines cross; those that only touch do not.
 *  @example segmentsCross([[0, 0], [2, 2]], [[0, 2], [2, 0]]) // => true */
export function segmentsCross([a, b]: Segment, [c, d]: Segment): boolean {
  const turn = (p: Readonly<Vec2>, q: Readonly<Vec2>, r: Readonly<Vec2>): number =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}
