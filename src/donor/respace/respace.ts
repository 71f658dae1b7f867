import type { Vec3 } from '../../solid/vector.ts';
import { type AxisFrame, axisFrame } from '../spans/axisFrame.ts';
import { eachLeaning, PARALLEL } from '../spans/plainSpans.ts';
import type { DonorMesh } from '../types.ts';
import { flipFolded } from './flipFolded.ts';
import { foldedBy } from './foldedBy.ts';
import { type LevelMap, levelMap, type TakeUp } from './levelMap.ts';
import { splitAtLevels } from './splitAtLevels.ts';

interface RespaceOptions {
  /** The level that does not move; everything below the take-ups by default. */
  readonly stays?: number;
}

/** The donor re-spaced along an axis: each take-up grows or shrinks in proportion, everything between take-ups moves as
 *  one, by exactly the same shift. Vertices keep their numbers, the surface stays as closed as it was, holes and pieces
 *  stay as many, and on plain spans the volume changes by area times length.
 *
 *  A flat wall may carry a triangle from below a take-up to corners at different heights above it, and moving only its
 *  corners can turn such a triangle over. Then edges inside the flat wall change hands, which leaves surface, vertices
 *  and number of triangles as they are. Where even that does not do, and where a facet that leans reaches into a
 *  take-up and would drag what is rigid with it, triangles are first divided at the ends of the take-ups, which
 *  adds vertices after the old ones.
 *
 *  Throws `RespaceRefusal` as `levelMap` does, `RangeError` for a zero axis.
 *  @example respace(cubeOfSide2, [0, 0, 1], [{ from: 0, to: 2, by: 1 }]) // a block 3 high */
export function respace(
  mesh: DonorMesh,
  axis: Readonly<Vec3>,
  takeUps: readonly TakeUp[],
  { stays }: RespaceOptions = {},
): DonorMesh {
  const map = levelMap(takeUps, stays);
  const frame = axisFrame(mesh.positions, axis);
  const levels = levelsOf(frame);
  const moved = movedPositions(mesh.positions, frame, levels, map);
  const { across, folded } = foldedBy(mesh.triangles, frame, levels, map);
  if (!someLean(mesh.triangles, frame, across)) {
    if (folded.length === 0) return { positions: moved, triangles: mesh.triangles };
    const flipped = flipFolded(mesh.triangles, frame, levels, map, across, folded);
    if (flipped) return { positions: moved, triangles: flipped };
  }
  const divided = splitAtLevels(mesh, levels, map.breaks);
  const again = axisFrame(divided.mesh.positions, axis);
  return {
    positions: movedPositions(divided.mesh.positions, again, divided.levels, map),
    triangles: divided.mesh.triangles,
  };
}

function levelsOf({ coordinates, h }: AxisFrame): Float64Array {
  const levels = new Float64Array(coordinates.length / 3);
  for (let v = 0; v < levels.length; v++) levels[v] = coordinates[3 * v + h]!;
  return levels;
}

function movedPositions(
  positions: Float64Array,
  { axis }: AxisFrame,
  levels: Float64Array,
  map: LevelMap,
): Float64Array {
  const moved = positions.slice();
  const [x, y, z] = axis;
  for (let v = 0; v < levels.length; v++) {
    const by = map.shift(levels[v]!);
    if (by === 0) continue;
    moved[3 * v]! += by * x;
    moved[3 * v + 1]! += by * y;
    moved[3 * v + 2]! += by * z;
  }
  return moved;
}

/** Whether some of the triangles are not parallel to the axis: moving only their corners would not bend them where the
 *  map does. */
function someLean(triangles: Uint32Array, frame: AxisFrame, some: readonly number[]): boolean {
  let lean = false;
  const chosen = Uint32Array.from(
    { length: 3 * some.length },
    (_, k) => triangles[3 * some[Math.floor(k / 3)]! + (k % 3)]!,
  );
  eachLeaning(chosen, frame, Math.sin((PARALLEL * Math.PI) / 180), () => {
    lean = true;
  });
  return lean;
}
