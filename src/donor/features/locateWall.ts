import { dot, lengthOf, subtract } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { type Cylinder, fitCylinder } from './fitCylinder.ts';
import { roundness, WallGrower } from './growWall.ts';
import { measureWall, type WallMeasures } from './measureWall.ts';
import { ResizeRefusal } from './resizeRefusal.ts';
import { roundFeatures } from './roundFeatures.ts';
import { type Surface, surfaceOf } from './surfaceOf.ts';
import type { Bore, Post } from './types.ts';

/** The wall of a feature as it lies in a mesh now. */
export interface LocatedWall extends WallMeasures {
  readonly cylinder: Cylinder;
  readonly triangles: Int32Array;
}

/** Finds the wall of a bore or post in a mesh that may have changed since the feature was recognised: by the numbers of its
 *  triangles where they still make that wall (after re-spacing, say), else by kind, size and nearest place.
 *  Throws `ResizeRefusal` with `round_not_found`. */
export function locateWall(
  mesh: DonorMesh,
  feature: Bore | Post,
): { readonly surface: Surface; readonly wall: LocatedWall } {
  const surface = surfaceOf(mesh);
  const known = measured(surface, feature, Int32Array.from(feature.wall));
  if (known !== undefined) return { surface, wall: known };
  const { bores, posts } = roundFeatures(mesh);
  const [nearest] = (feature.kind === 'bore' ? bores : posts)
    .filter(
      ({ diameter, axis }) =>
        Math.abs(diameter / feature.diameter - 1) < 2e-3 && Math.abs(dot(axis, feature.axis)) > 0.9999,
    )
    .sort((a, b) => apart(a, feature) - apart(b, feature));
  const found = nearest && measured(surface, nearest, Int32Array.from(nearest.wall));
  if (found === undefined)
    throw new ResizeRefusal(
      'round_not_found',
      feature.id,
      'no such wall in this mesh',
      'a mesh with the feature in it',
      feature.at,
    );
  return { surface, wall: found };
}

const apart = (a: Bore | Post, b: Bore | Post): number => lengthOf(subtract(a.at, b.at));

/** The wall measured afresh; undefined where the triangles do not make it. */
function measured(surface: Surface, feature: Bore | Post, triangles: Int32Array): LocatedWall | undefined {
  const { positions: p, triangles: all } = surface.mesh;
  if (triangles.some((t) => 3 * t >= all.length)) return undefined;
  const middle = [0, 0, 0];
  for (const t of triangles)
    for (let k = 0; k < 3; k++) for (let c = 0; c < 3; c++) middle[c]! += p[3 * all[3 * t + k]! + c]!;
  const [cx, cy, cz] = middle.map((sum) => sum / (3 * triangles.length)) as [number, number, number];
  const [ax, ay, az] = feature.axis;
  const start = { ax, ay, az, cx, cy, cz, radius: feature.diameter / 2 };
  const points = new WallGrower(surface).pointsOf(triangles);
  if (points.length < 9) return undefined;
  const cylinder = fitCylinder(points, start);
  if (cylinder === undefined) return undefined;
  const off = 2 * roundness(surface, cylinder.radius);
  const mark = new Int32Array(all.length / 3).fill(-1);
  const wall = { cylinder, triangles, ...measureWall(surface, cylinder, triangles, mark, 0) };
  const same =
    Math.abs(2 * cylinder.radius - feature.diameter) < off &&
    Math.abs(wall.covered - feature.coverage) < 0.01 &&
    wall.outer < cylinder.radius + off &&
    wall.taper < 0.005;
  return same ? wall : undefined;
}
