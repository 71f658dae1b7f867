import { cross, dot, unit, type Vec2, type Vec3 } from '../../solid/vector.ts';

/** From where a thing is looked at, as three unit vectors of its own frame: what points right on the paper, what
 *  points up on it, and what points out of it at the reader. Right-handed: right x up = toward. */
export interface View {
  readonly right: Readonly<Vec3>;
  readonly up: Readonly<Vec3>;
  readonly toward: Readonly<Vec3>;
}

/** Views by what they show. x runs along the part, y across it, z up: the front is seen against y, x to the right.
 *  The isometric views (ISO 5456-3) show front, right side and top, or front, right side and bottom. */
export type ViewName =
  | 'front'
  | 'back'
  | 'left'
  | 'right'
  | 'top'
  | 'bottom'
  | 'isometric'
  | 'isometricBelow';

const flat = (right: Vec3, up: Vec3): View => ({ right, up, toward: cross(right, up) });

/** The view out of direction `toward`, with `upright` pointing up the paper as far as it can.
 *  Throws `RangeError` when the two are parallel.
 *  @example viewFrom([0, -1, 0]) // the front */
export function viewFrom(toward: Readonly<Vec3>, upright: Readonly<Vec3> = [0, 0, 1]): View {
  const out = unit(toward);
  const sideways = cross(upright, out);
  if (Math.hypot(...sideways) < 1e-9)
    throw new RangeError('viewFrom requires toward and upright not parallel');
  const right = unit(sideways);
  return { right, up: cross(out, right), toward: out };
}

const named: Readonly<Record<ViewName, View>> = {
  front: flat([1, 0, 0], [0, 0, 1]),
  back: flat([-1, 0, 0], [0, 0, 1]),
  left: flat([0, -1, 0], [0, 0, 1]),
  right: flat([0, 1, 0], [0, 0, 1]),
  top: flat([1, 0, 0], [0, 1, 0]),
  bottom: flat([1, 0, 0], [0, -1, 0]),
  isometric: viewFrom([1, -1, 1]),
  isometricBelow: viewFrom([1, -1, -1]),
};

/** A view by its name; a view given as vectors is handed back. */
export const viewOf = (view: View | ViewName): View => (typeof view === 'string' ? named[view] : view);

/** Where a point falls on the paper: right, up, and towards the reader, mm. */
export const project = ({ right, up, toward }: View, p: Readonly<Vec3>): Vec3 => [
  dot(right, p),
  dot(up, p),
  dot(toward, p),
];

/** A straight line on the paper, mm. */
export type Segment = readonly [Readonly<Vec2>, Readonly<Vec2>];

/** What is seen of some solids, and what lies behind them; mm on the paper at 1:1. */
export interface LineView {
  readonly visible: readonly Segment[];
  /** Hidden lines, without those that fall behind a visible one. */
  readonly hidden: readonly Segment[];
}

/** Smallest upright rectangle around points on the paper, mm. */
export interface Box {
  readonly min: Readonly<Vec2>;
  readonly max: Readonly<Vec2>;
}

/** The rectangle around all points; throws `RangeError` for none. */
export function boxAround(points: Iterable<readonly [number, number, ...number[]]>): Box {
  const [min, max]: [Vec2, Vec2] = [
    [Infinity, Infinity],
    [-Infinity, -Infinity],
  ];
  for (const [x, y] of points) {
    min[0] = Math.min(min[0], x);
    min[1] = Math.min(min[1], y);
    max[0] = Math.max(max[0], x);
    max[1] = Math.max(max[1], y);
  }
  if (!(min[0] <= max[0])) throw new RangeError('boxAround requires at least 1 point');
  return { min, max };
}

/** The rectangle grown by `by` mm on every side. */
export const grown = ({ min, max }: Box, by: number): Box => ({
  min: [min[0] - by, min[1] - by],
  max: [max[0] + by, max[1] + by],
});
