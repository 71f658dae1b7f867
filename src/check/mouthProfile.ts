import type { MouthLoad } from '../family/load.ts';
import type { Manifold, Scope } from '../solid/kernel.ts';
import { matrix } from '../solid/placement.ts';
import { type Contour, cross, dot, type Placement, type Vec2 } from '../solid/vector.ts';

/** From the frame of the part to the frame of the load: x sideways, y inward, z along the bar, origin at `at`. */
export function loadFrame({ at, normal, inward }: MouthLoad): Placement {
  const side = cross(inward, normal);
  return {
    rotation: [...side, ...inward, ...normal] as unknown as Placement['rotation'],
    translation: [-dot(side, at), -dot(inward, at), -dot(normal, at)],
  };
}

/** Section of a solid across the bar, through the middle of the load; `toLoad` brings the solid into the load's frame. */
export function mouthProfile(scope: Scope, solid: Manifold, toLoad: Placement): Contour[] {
  const turned = scope.keep(solid.transform(matrix(toLoad)));
  return scope.keep(turned.slice(0)).toPolygons() as Contour[];
}

/** Levels this much wider than the narrowest are as narrow, mm: walls of a predicted print wander by as much from layer to
 *  layer for no reason but rounding. */
const AS_NARROW = 1e-4;

/** The gap as it is in a profile: its narrowest place between the outer edge and the bore, found on levels a fiftieth
 *  of a millimetre apart and, where several are as narrow, the innermost. Null when the profile has no gap there. */
export function narrowestGap(contours: readonly Contour[], near: readonly [Vec2, Vec2]): [Vec2, Vec2] | null {
  const middle = (near[0][0] + near[1][0]) / 2;
  const top = Math.max(near[0][1], near[1][1]) + 0.2;
  const bottom = Math.min(...contours.flatMap((contour) => contour.map((p) => p[1])));
  const gaps: [number, number, number][] = [];
  for (let y = top; y > bottom; y -= 0.02) {
    const gap = gapAt(contours, middle, y);
    if (gap) gaps.push([...gap, y]);
  }
  const least = Math.min(...gaps.map(([left, right]) => right - left));
  // From the inside out, so the first is the innermost.
  const found = gaps.find(([left, right]) => right - left <= least + AS_NARROW);
  if (!found) return null;
  const [left, right, y] = found;
  return [
    [left, y],
    [right, y],
  ];
}

/** Walls left and right of `x` on the level `y`, when `x` itself lies in the open. */
function gapAt(contours: readonly Contour[], x: number, y: number): [number, number] | null {
  let [left, right] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  let crossings = 0;
  for (const contour of contours) {
    for (let k = 0; k < contour.length; k++) {
      const [p, q] = [contour[k]!, contour[(k + 1) % contour.length]!];
      if (p[1] > y === q[1] > y) continue;
      const at = p[0] + ((y - p[1]) / (q[1] - p[1])) * (q[0] - p[0]);
      if (at < x) {
        left = Math.max(left, at);
        crossings++;
      } else right = Math.min(right, at);
    }
  }
  return crossings % 2 === 0 && Number.isFinite(left) && Number.isFinite(right) ? [left, right] : null;
}
