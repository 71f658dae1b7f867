import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { type AxisFrame, axisFrame, extentOf } from './axisFrame.ts';
import { outlinesAgree } from './outlinesAgree.ts';
import { outlinesAt } from './section.ts';

/** Two sides are alike when their outlines agree to this share of the donor's size: the chords of a bore may lie differently
 *  on both sides, and 0.03 mm on a part of 60 mm is what callipers tell apart. Common practice, no source. */
const ALIKE = 5e-4;

/** Pairs of levels looked at. */
const BY_VERTICES = 40;
const EVENLY = 8;
const LOOKED_THROUGH = 1 << 16;

/** The level of the plane across the axis in which the donor mirrors itself; null when there is none. Only the middle of
 *  its extent can be one. Sections as far below as above are laid over each other, at levels between its vertices, where
 *  the shape changes, and at even steps; a difference that fits between all of them is not seen.
 *  @example mirrorLevel(blockOf10, [0, 0, 1]) // => 5 */
export const mirrorLevel = (mesh: DonorMesh, axis: Readonly<Vec3>): number | null =>
  mirrorIn(mesh.triangles, axisFrame(mesh.positions, axis));

/** The same for a frame that is there already. */
export function mirrorIn(triangles: Uint32Array, frame: AxisFrame): number | null {
  const [low, high] = extentOf(frame);
  if (!(high > low)) return null;
  const middle = (low + high) / 2;
  const alike = ALIKE * sizeOf(triangles, frame);
  const half = (high - low) / 2;
  const even = Array.from({ length: EVENLY }, (_, k) => (half * (k + 0.5)) / EVENLY);
  const between = distances(frame, middle, alike);
  // A few first: they settle most donors that have no mirror plane.
  return [even, between].every((away) => alikeAt(triangles, frame, middle, away, alike)) ? middle : null;
}

/** Twice as far as the furthest corner lies from the middle of the surface: of a block its diagonal. The box around a donor grows when it is
 *  turned, and what is alike in one pose must be in another. */
function sizeOf(triangles: Uint32Array, { coordinates: c }: AxisFrame): number {
  let whole = 0;
  const sum = [0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const [p, q, r] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [c[q]! - c[p]!, c[q + 1]! - c[p + 1]!, c[q + 2]! - c[p + 2]!];
    const [vx, vy, vz] = [c[r]! - c[p]!, c[r + 1]! - c[p + 1]!, c[r + 2]! - c[p + 2]!];
    const area = Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
    whole += area;
    for (let k = 0; k < 3; k++) sum[k]! += (area * (c[p + k]! + c[q + k]! + c[r + k]!)) / 3;
  }
  const [x, y, z] = sum.map((moment) => moment / whole) as [number, number, number];
  let furthest = 0;
  for (let i = 0; i < c.length; i += 3)
    furthest = Math.max(furthest, Math.hypot(c[i]! - x, c[i + 1]! - y, c[i + 2]! - z));
  return 2 * furthest;
}

function alikeAt(
  triangles: Uint32Array,
  frame: AxisFrame,
  middle: number,
  away: readonly number[],
  alike: number,
): boolean {
  const outlines = outlinesAt(
    triangles,
    frame,
    away.flatMap((d) => [middle - d, middle + d]),
  );
  return away.every((_, k) => outlinesAgree(outlines[2 * k]!, outlines[2 * k + 1]!, alike));
}

/** How far from the middle the vertex levels of both sides leave a gap, its middle; at most so many, evenly picked. */
function distances({ coordinates, h }: AxisFrame, middle: number, apart: number): readonly number[] {
  const vertices = coordinates.length / 3;
  const stride = Math.max(1, Math.floor(vertices / LOOKED_THROUGH));
  const levels = new Float64Array(Math.ceil(vertices / stride));
  for (let k = 0; k < levels.length; k++) levels[k] = Math.abs(coordinates[3 * k * stride + h]! - middle);
  const steps = [0];
  for (const level of levels.sort()) if (level - steps.at(-1)! > 2 * apart) steps.push(level);
  const gaps = steps.slice(1).map((step, k) => (step + steps[k]!) / 2);
  const count = Math.min(BY_VERTICES, gaps.length);
  return Array.from({ length: count }, (_, k) => gaps[Math.floor((k * gaps.length) / count)]!);
}
