import type { ManifoldToplevel } from '../../solid/kernel.ts';
import type { DonorMesh } from '../types.ts';
import { cutWall } from './cutWall.ts';
import { locateWall } from './locateWall.ts';
import { moveWall } from './moveWall.ts';
import { ResizeRefusal } from './resizeRefusal.ts';
import type { Bore, Post } from './types.ts';
import { inTheWay, wallSurroundings } from './wallSurroundings.ts';

/** A mesh with a bore or post of another diameter. */
export interface ResizedMesh extends DonorMesh {
  /** `moved`: only vertices of the wall, its chamfers and fillets are elsewhere, and every face is bounded by the same vertices. `cut`: drilled, lined, turned down or
   *  sleeved by a boolean; triangles have new numbers. `same`: it had the diameter already. */
  readonly by: 'moved' | 'cut' | 'same';
}

/** Brings a bore or post to a diameter and leaves the rest as it is. A bore's facets clear a shaft of that diameter, a post's corners
 *  pass a hole of it. `diameter` in the unit of the mesh. The feature may have been recognised before the mesh was re-spaced: its wall is looked up again.
 *  Throws `ResizeRefusal`: `round_breaks_through`, `round_meets_other`, `round_not_closed`, `round_not_found`, `diameter_not_positive`.
 *  @example resizeRound(kernel, mesh, roundFeatures(mesh).bores[0]!, 1.86).by // => 'moved' */
export function resizeRound(
  kernel: ManifoldToplevel,
  mesh: DonorMesh,
  feature: Bore | Post,
  diameter: number,
): ResizedMesh {
  const { id, kind } = feature;
  const given = `diameter ${short(diameter)}`;
  if (!(diameter > 0 && diameter < Infinity))
    throw new ResizeRefusal('diameter_not_positive', id, given, 'a diameter above 0', feature.at);
  const { surface, wall } = locateWall(mesh, feature);
  const now = 2 * (kind === 'bore' ? wall.inner : wall.outer);
  // A hair over or under, so that rounding in double precision cannot take it to the wrong side.
  const by = (diameter / now) * (kind === 'bore' ? 1 + 1e-12 : 1 - 1e-12);
  if (Math.abs(by - 1) < 1e-9) return { ...mesh, by: 'same' };

  const around = wallSurroundings(surface, wall);
  const grows = by > 1;
  const [inner, outer] = grows ? [wall.inner, wall.outer * by] : [wall.inner * by, wall.outer];
  const met = inTheWay(surface, wall, around, inner, outer, grows);
  if (met !== undefined) {
    const solid = (kind === 'bore') === grows;
    // What the corners of a growing wall, or the flats of a shrinking one, would touch first.
    const limit = grows
      ? (2 * met.radius * now) / (2 * wall.outer)
      : (2 * met.radius * now) / (2 * wall.inner);
    throw new ResizeRefusal(
      solid ? 'round_breaks_through' : 'round_meets_other',
      id,
      `${given} ${solid ? 'leaves no wall' : 'runs into what stands beside it'}`,
      `a diameter ${grows ? 'below' : 'above'} ${short(limit)}`,
      met.at,
    );
  }
  const moved = moveWall(kernel, surface, wall, by);
  if (moved !== undefined) return { ...moved, by: 'moved' };
  const cut = cutWall(kernel, surface, wall, around, kind, diameter / 2);
  if (cut !== undefined) return { ...cut, by: 'cut' };
  throw new ResizeRefusal(
    'round_not_closed',
    id,
    `${given} opens or closes a hole, or parts the model`,
    `a diameter nearer to the ${short(now)} it has`,
    feature.at,
  );
}

/** Five significant digits. */
const short = (value: number): string => String(Number(value.toPrecision(5)));
