import type { Manifold, Scope } from '../../solid/kernel.ts';
import type { Vec3 } from '../../solid/vector.ts';
import { type AxisFrame, axisFrame, extentOf } from '../spans/axisFrame.ts';
import type { DonorMesh } from '../types.ts';
import { framedSolid, fromFramed } from './framedSolid.ts';
import { RespaceRefusal } from './respaceRefusal.ts';

/** A change by the saw: at level `at` the donor is cut. Below 0, the slab of that thickness above is taken out; above 0,
 *  a slab of that thickness with the section at the cut is put in. Then everything is joined again. */
export interface Cut {
  readonly at: number;
  readonly by: number;
}

/** The donor cut across an axis and joined again; what lies below the cut stays. Where the two sections differ a step is
 *  left, of the area by which they differ. Coordinates pass through 32 bits.
 *  Throws `RespaceRefusal` for a cut that leaves nothing on one side, `SolidProblem` for a donor that is not closed.
 *  @example cutAndRejoin(scope, blockOf10, [0, 0, 1], { at: 4, by: -3 }) // a block 7 high */
export function cutAndRejoin(scope: Scope, mesh: DonorMesh, axis: Readonly<Vec3>, cut: Cut): DonorMesh {
  const frame = axisFrame(mesh.positions, axis);
  return fromFramed(rejoined(scope, framedSolid(scope, mesh.triangles, frame), frame, cut), frame);
}

function rejoined(scope: Scope, solid: Manifold, frame: AxisFrame, { at, by }: Cut): Manifold {
  const [low, high] = extentOf(frame);
  const upper = by < 0 ? at - by : at;
  if (!(at > low && upper < high && by !== 0 && Number.isFinite(by)))
    throw new RespaceRefusal(
      'cut_outside',
      `a cut between ${low} and ${high} with rest on both sides`,
      `${at} by ${by}`,
    );
  const below = scope.keep(solid.trimByPlane([0, 0, -1], -at));
  const above = onLevel(
    scope,
    scope.keep(scope.keep(solid.trimByPlane([0, 0, 1], upper)).translate([0, 0, by])),
    at + Math.max(0, by),
  );
  const parts = [onLevel(scope, below, at), above];
  if (by > 0) {
    const slab = scope.keep(scope.keep(solid.slice(at)).extrude(by));
    parts.push(onLevel(scope, onLevel(scope, scope.keep(slab.translate([0, 0, at])), at), at + by));
  }
  return scope.keep(scope.kernel.Manifold.union(parts));
}

/** Faces that meet must lie on the very same number, or a film is left between them. */
const FILM = 1e-6;

function onLevel(scope: Scope, solid: Manifold, level: number): Manifold {
  const film = FILM * Math.max(1, Math.abs(level));
  return scope.keep(
    solid.warp((point) => {
      if (Math.abs(point[2] - level) <= film) point[2] = level;
    }),
  );
}
