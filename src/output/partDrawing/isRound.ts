import { type Mesh, vertexAt } from '../../solid/mesh.ts';
import { cross, dot, subtract, unit, type Vec3 } from '../../solid/vector.ts';
import type { SizeAsked } from './partDrawingInput.ts';

/** How far corners of facets stray from the circle, mm, as chord errors of own parts go up to 0.02 mm, and as a share of the radius, for
 *  models of others with few facets. */
const STRAY = 0.03;
const STRAY_SHARE = 0.015;
/** Corners all around, none of the gaps between them a quarter of the turn or wider: a square has four of 90 degrees. */
const FEWEST = 8;
const WIDEST = 80;

/** Whether the feature whose size is asked is round about its axis, told by the corners of the mesh: split posts are, squares and
 *  obrounds are not. */
export function isRound(mesh: Mesh, { kind, at, axis, length, drawn }: SizeAsked): boolean {
  if (kind === 'step') return false;
  const radius = drawn / 2;
  const right = unit(cross(axis, Math.abs(axis[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]));
  const up = cross(axis, right) as Vec3;
  const degrees: number[] = [];
  for (let v = 0; v < mesh.positions.length / 3; v++) {
    const from = subtract(vertexAt(mesh, v), at);
    if (Math.abs(dot(from, axis)) > length / 2 + STRAY) continue;
    const [x, y] = [dot(from, right), dot(from, up)];
    if (Math.abs(Math.hypot(x, y) - radius) <= Math.max(STRAY, STRAY_SHARE * radius))
      degrees.push((Math.atan2(y, x) * 180) / Math.PI);
  }
  degrees.sort((a, b) => a - b);
  const apart = degrees.map((angle, k) =>
    k === 0 ? angle + 360 - degrees.at(-1)! : angle - degrees[k - 1]!,
  );
  const corners = apart.filter((gap) => gap > 1).length;
  return corners >= FEWEST && Math.max(...apart) < WIDEST;
}
