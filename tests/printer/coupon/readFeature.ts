import type { CouponFeature } from '../../../src/printer/coupon/feature.ts';
import type { Manifold } from '../../../src/solid/kernel.ts';
import type { Contour, Vec2, Vec3 } from '../../../src/solid/vector.ts';
import { crossings, sectionAt } from '../measure.ts';

/** A wall further than this from where it was drawn is another wall, mm. */
const WINDOW = 1.2;
/** Half the thickness of a jaw, mm. */
const HALF_JAW = 1.4;

/** Size of a feature as jaws would read it from a solid: walls are looked for in sections and along upright lines of the
 *  mesh, near to where the feature's callout says they are. Outside jaws touch what stands out most across their
 *  thickness, inside jaws what stands in most. mm; NaN when there is no wall. */
export function readFeature(solid: Manifold, feature: CouponFeature): number {
  const [a, b] = feature.callout;
  const direction = feature.measurand.direction;
  if (direction[2] === 1) return upright(solid, b) - upright(solid, a);
  const { jaw } = feature.reading;
  const along = [direction[0], direction[1]] as const;
  // A blade in a bore is narrow; the depth rod meets one point.
  const strips = jaw === 'outside' ? [-1, -0.5, 0, 0.5, 1].map((k) => k * HALF_JAW) : [0];
  const ends = [a, b].map((end, k) => {
    const walls = strips.flatMap((offset) => wallsNear(solid, end, along, offset));
    const far = k === 1 ? Math.max(...walls) : Math.min(...walls);
    const near = k === 1 ? Math.min(...walls) : Math.max(...walls);
    return jaw === 'outside' ? far : near;
  });
  return ends[1]! - ends[0]!;
}

/** Where walls lie along a line through a point, in its section, as distance along `direction`. The end face of an arm
 *  lies below the rod that is held against it, so the plate is looked at as well. */
function wallsNear(solid: Manifold, end: Vec3, [c, s]: readonly [number, number], offset: number): number[] {
  const turned = ([x, y]: Readonly<Vec2>): Vec2 => [c * x + s * y, c * y - s * x];
  const [u, v] = turned([end[0], end[1]]);
  for (const z of [end[2], 2]) {
    const contours = sectionAt(solid, z).map((contour) => contour.map(turned) as Contour);
    const found = crossings(contours, 'x', v + offset).filter((wall) => Math.abs(wall - u) < WINDOW);
    if (found.length > 0) return found;
  }
  return [];
}

/** Height of the level face nearest to a point, straight above or below it, or beside it where only the tower is. */
function upright(solid: Manifold, [x, y, z]: Vec3): number {
  for (const dx of [0, -2]) {
    const found = heightsAt(solid, x + dx, y).filter((height) => Math.abs(height - z) < WINDOW);
    if (found.length > 0) return found.reduce((p, q) => (Math.abs(p - z) < Math.abs(q - z) ? p : q));
  }
  return Number.NaN;
}

/** Heights at which an upright line enters or leaves a solid: its triangles, one by one. */
export function heightsAt(solid: Manifold, x: number, y: number): number[] {
  const { vertProperties: p, triVerts, numProp } = solid.getMesh();
  const found: number[] = [];
  for (let t = 0; t < triVerts.length; t += 3) {
    const [i, j, k] = [triVerts[t]! * numProp, triVerts[t + 1]! * numProp, triVerts[t + 2]! * numProp];
    const [ax, ay, bx, by] = [p[j]! - p[i]!, p[j + 1]! - p[i + 1]!, p[k]! - p[i]!, p[k + 1]! - p[i + 1]!];
    const det = ax * by - ay * bx;
    if (Math.abs(det) < 1e-12) continue;
    const [dx, dy] = [x - p[i]!, y - p[i + 1]!];
    const [u, v] = [(dx * by - dy * bx) / det, (ax * dy - ay * dx) / det];
    if (u < 0 || v < 0 || u + v > 1) continue;
    found.push(p[i + 2]! + u * (p[j + 2]! - p[i + 2]!) + v * (p[k + 2]! - p[i + 2]!));
  }
  return found.sort((one, two) => one - two);
}
