import type { Contour, Vec2 } from '../solid/vector.ts';

/** A contour piece between two sharp corners, walked by arc length. */
export interface Chain {
  readonly points: readonly Vec2[];
  /** Arc length at each point, mm, from 0. */
  readonly arc: Float64Array;
  readonly length: number;
  /** The whole of a contour without a sharp corner. */
  readonly closed: boolean;
}

/** A corner of a contour that the mesh keeps. */
export interface Corner {
  readonly at: Vec2;
  /** Turn of the boundary, radians; positive is a convex corner of the material, negative a re-entrant one. */
  readonly turn: number;
}

export interface Boundary {
  /** Chains of one contour follow one another. */
  readonly contours: readonly (readonly Chain[])[];
  readonly corners: readonly Corner[];
  readonly perimeter: number;
}

/** Turns sharper than this stay corners; gentler ones are facets of a curve. */
const CORNER = (25 * Math.PI) / 180;

/** Splits contours at their sharp corners. Points closer than `merge` mm to the one before are one point;
 *  contours of less than three points are left out. */
export function profileBoundary(contours: readonly Contour[], merge = 1e-6): Boundary {
  const corners: Corner[] = [];
  let perimeter = 0;
  const split = contours.flatMap((given) => {
    const contour = given.filter((p, i) => {
      const q = given[(i + 1) % given.length]!;
      return Math.hypot(q[0] - p[0], q[1] - p[1]) > merge;
    });
    if (contour.length < 3) return [];
    const n = contour.length;
    const turns = contour.map((p, i) => turn(contour[(i + n - 1) % n]!, p, contour[(i + 1) % n]!));
    const sharp = [...contour.keys()].filter((i) => Math.abs(turns[i]!) > CORNER);
    for (const i of sharp) corners.push({ at: contour[i]!, turn: turns[i]! });
    const starts = sharp.length > 0 ? sharp : [0];
    const chains = starts.map((from, k) => {
      const to = starts[(k + 1) % starts.length]!;
      const count = ((to - from + n - 1) % n) + 1;
      return chain(
        Array.from({ length: count + 1 }, (_, j) => contour[(from + j) % n]!),
        sharp.length === 0,
      );
    });
    for (const c of chains) perimeter += c.length;
    return [chains];
  });
  return { contours: split, corners, perimeter };
}

/** The point at arc length `s` of a chain. */
export function pointAlong(chain: Chain, s: number): Vec2 {
  const { points, arc } = chain;
  let lo = 0;
  let hi = arc.length - 1;
  while (hi - lo > 1) {
    const mid = (lo + hi) >> 1;
    if (arc[mid]! <= s) lo = mid;
    else hi = mid;
  }
  const t = (s - arc[lo]!) / (arc[hi]! - arc[lo]!);
  const [a, b] = [points[lo]!, points[hi]!];
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}

function chain(points: Vec2[], closed: boolean): Chain {
  const arc = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    arc[i] = arc[i - 1]! + Math.hypot(b[0] - a[0], b[1] - a[1]);
  }
  return { points, arc, length: arc[arc.length - 1]!, closed };
}

/** Turn at `b` on the way from `a` to `c`, radians, positive to the left. */
export function turn(a: Readonly<Vec2>, b: Readonly<Vec2>, c: Readonly<Vec2>): number {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}
