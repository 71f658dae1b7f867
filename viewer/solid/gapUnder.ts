import type { FitSurface } from '../../src/job/solidView.ts';
import { MeshIndex } from '../../src/solid/meshIndex.ts';
import type { Vec2 } from '../../src/solid/vector.ts';
import { gapWords } from './gapWords.ts';
import { poseOf } from './pose.ts';
import type { SolidState } from './solidState.ts';

/** The gap at a place of the picture. */
export interface GapUnder {
  readonly name: string;
  /** "0.037 mm a side, 0.000 .. 0.075 wanted". */
  readonly words: string;
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
  const wanted = fit.wanted[gaps.against[first]!]!;
  return { name: wanted.name, words: gapWords(gap, wanted) };
}
