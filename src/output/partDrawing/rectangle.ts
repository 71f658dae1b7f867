import type { Vec2 } from '../../solid/vector.ts';
import { clipSegment, type Segment } from '../drawing/index.ts';

/** A rectangle at any angle on the paper, mm. */
export interface Rectangle {
  readonly middle: Readonly<Vec2>;
  /** Unit vector along its first side. */
  readonly along: Readonly<Vec2>;
  /** Half its sides. */
  readonly half: Readonly<Vec2>;
}

export const cornersOf = ({ middle: [x, y], along: [c, s], half: [a, b] }: Rectangle): Vec2[] =>
  (
    [
      [-a, -b],
      [a, -b],
      [a, b],
      [-a, b],
    ] as const
  ).map(([u, v]) => [x + u * c - v * s, y + u * s + v * c]);

/** Whether a line runs through the rectangle, or nearer to it than `margin` mm. */
export function meetsLine({ middle, along: [c, s], half }: Rectangle, line: Segment, margin = 0): boolean {
  const inside = ([x, y]: Readonly<Vec2>): Vec2 => {
    const [dx, dy] = [x - middle[0], y - middle[1]];
    return [dx * c + dy * s, dy * c - dx * s];
  };
  const reach: Vec2 = [half[0] + margin, half[1] + margin];
  return (
    clipSegment([inside(line[0]), inside(line[1])], { min: [-reach[0], -reach[1]], max: reach }) !== null
  );
}

/** Whether two rectangles overlap, or come nearer than `margin` mm: each is cut by a side or diagonal of the other. */
export function meetsRectangle(one: Rectangle, other: Rectangle, margin = 0): boolean {
  const lines = (of: Rectangle): Segment[] => {
    const [a, b, c, d] = cornersOf(of) as [Vec2, Vec2, Vec2, Vec2];
    return [
      [a, b],
      [b, c],
      [c, d],
      [d, a],
      [a, c],
    ];
  };
  return (
    lines(other).some((line) => meetsLine(one, line, margin)) ||
    lines(one).some((line) => meetsLine(other, line, margin))
  );
}

/** Whether two lines cross between their ends. */
export const cross = ([a, b]: Segment, [c, d]: Segment): boolean =>
  apart(turn(a, b, c), turn(a, b, d)) && apart(turn(c, d, a), turn(c, d, b));

/** Twice the area of a triangle, above 0 for a left turn. */
const turn = (p: Readonly<Vec2>, q: Readonly<Vec2>, r: Readonly<Vec2>): number =>
  (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);

const apart = (s: number, t: number): boolean => (s > 1e-9 && t < -1e-9) || (s < -1e-9 && t > 1e-9);
