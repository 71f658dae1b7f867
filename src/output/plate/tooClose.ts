import type { CrossSection, Scope } from '../../solid/kernel.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import type { CoarseOutline } from './coarseOutline.ts';

/** Sides a full round corner of the forbidden region is drawn with. */
const ROUND = 64;

/** All shifts of `mobile` by which it comes nearer than `spacing` to `fixed`: the Minkowski sum of the one and the other
 *  turned inside out, grown by the spacing (no-fit polygon; Art, 1966, and any textbook of cutting and packing since).
 *  The section belongs to the scope. */
export function tooClose(
  scope: Scope,
  fixed: CoarseOutline,
  mobile: CoarseOutline,
  spacing: number,
): CrossSection {
  const { CrossSection } = scope.kernel;
  const sums = fixed.pieces.flatMap((a) => mobile.pieces.map((b) => convexSum(a, b.map(negative))));
  const touching = scope.keep(new CrossSection(sums, 'NonZero'));
  // A round corner is drawn inside its arc, so the radius is that of the circle around it.
  return scope.keep(touching.offset(spacing / Math.cos(Math.PI / ROUND), 'Round', 2, ROUND));
}

const negative = ([x, y]: Readonly<Vec2>): Vec2 => [-x, -y];

/** Minkowski sum of two convex counter-clockwise contours: their sides in order of direction. */
function convexSum(a: Contour, b: Contour): Contour {
  const [p, q] = [fromLowest(a), fromLowest(b)];
  const sum: Contour = [];
  for (let i = 0, j = 0; i < p.length || j < q.length; ) {
    const [u, v] = [p[i % p.length]!, q[j % q.length]!];
    sum.push([u[0] + v[0], u[1] + v[1]]);
    const [s, t] = [p[(i + 1) % p.length]!, q[(j + 1) % q.length]!];
    const turning = (s[0] - u[0]) * (t[1] - v[1]) - (s[1] - u[1]) * (t[0] - v[0]);
    const [first, second] = [
      i < p.length && (turning >= 0 || j >= q.length),
      j < q.length && (turning <= 0 || i >= p.length),
    ];
    if (first) i++;
    if (second) j++;
  }
  return sum;
}

/** The contour from its lowest vertex on, the leftmost of those. */
function fromLowest(contour: Contour): Contour {
  let first = 0;
  contour.forEach(([x, y], k) => {
    const [lx, ly] = contour[first]!;
    if (y < ly || (y === ly && x < lx)) first = k;
  });
  return [...contour.slice(first), ...contour.slice(0, first)];
}
