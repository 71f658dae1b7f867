import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { type AxisFrame, axisFrame, diagonalOf, extentOf } from './axisFrame.ts';
import { outlinesAgree } from './outlinesAgree.ts';
import { outlinesAt } from './section.ts';

/** Two sides are alike when their outlines agree to this share of the diagonal: the chords of a bore may lie differently
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
  const alike = ALIKE * diagonalOf(frame);
  const half = (high - low) / 2;
  const even = Array.from({ length: EVENLY }, (_, k) => (half * (k + 0.5)) / EVENLY);
  const between = distances(frame, middle, alike);
  // A few first: they settle most donors that have no mirror plane.
  return [even, between].every((away) => alikeAt(triangles, frame, middle, away, alike)) ? middle : null;
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
