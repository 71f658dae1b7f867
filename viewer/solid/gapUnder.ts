import type { FitSurface } from '../../src/job/solidView.ts';
import { clearanceWindow } from '../../src/output/words/index.ts';
import { MeshIndex } from '../../src/solid/meshIndex.ts';
import type { Vec2 } from '../../src/solid/vector.ts';
import { poseOf } from './pose.ts';
import type { SolidState } from './solidState.ts';

/** The gap at a place of the picture. */
export interface GapUnder {
  readonly name: string;
  /** mm a side. */
  readonly gap: number;
  /** "0.05 .. 0.15 wanted". */
  readonly wanted: string;
}

const indices = new WeakMap<FitSurface, MeshIndex>();

/** The gap of the surface under a point of the picture, pixels; null where there is none. */
export function gapUnder(state: SolidState, point: Readonly<Vec2>): GapUnder | null {
  const part = state.part.peek();
  if (part?.manner !== 'gaps' || !part.round) return null;
  const { fit } = part.round;
  const at = state.under(point);
  const gaps = fit.poses[poseOf(state)];
  if (!at || !gaps) return null;
  let index = indices.get(fit);
  if (!index) {
    const triangles = Uint32Array.from({ length: fit.positions.length / 3 }, (_, k) => k);
    index = new MeshIndex({ positions: fit.positions, triangles });
    indices.set(fit, index);
  }
  const near = index.nearest(at, 0.5);
  if (!near) return null;
  const corners = [0, 1, 2].map((k) => 3 * near.triangle + k).filter((k) => !Number.isNaN(gaps.gap[k]!));
  const [first] = corners;
  if (first === undefined) return null;
  const gap = corners.reduce((sum, k) => sum + gaps.gap[k]!, 0) / corners.length;
  const { name, least, most } = fit.wanted[gaps.against[first]!]!;
  return { name, gap, wanted: `${clearanceWindow([least, most])} wanted` };
}
