import { type Mesh, vertexAt } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import { type Box, boxAround, grown, project, type View } from '../drawing/index.ts';

/** How paper millimetres fall on pixels. */
export interface Frame {
  /** Pixels a mm. */
  readonly scale: number;
  /** Point of the view in the middle of the picture, mm. */
  readonly middle: Readonly<Vec2>;
}

/** Free rim around what is shown, as a share of the picture's shorter side. */
const MARGIN = 0.08;
/** How much of the machine around the part is shown, as a share of the part's larger side on paper. */
const AROUND = 0.4;

/** Places the parts in the middle of the picture, as large as the rim allows; of the machine, what is near. */
export function frameOf(
  parts: readonly Mesh[],
  ghosts: readonly Mesh[],
  view: View,
  width: number,
  height: number,
): Frame {
  const part = boxOf(parts.length > 0 ? parts : ghosts, view);
  const size = (box: Box): Vec2 => [box.max[0] - box.min[0], box.max[1] - box.min[1]];
  const rim = grown(part, AROUND * Math.max(...size(part)));
  const near = ghosts.map((ghost) => overlap(boxOf([ghost], view), rim)).filter((box) => box !== null);
  const shown = boxAround(
    [part, ...near].flatMap(({ min, max }) => [[...min], [...max]] as [number, number][]),
  );
  const margin = MARGIN * Math.min(width, height);
  const [w, h] = size(shown);
  return {
    scale: Math.min((width - 2 * margin) / w, (height - 2 * margin) / h),
    middle: [(shown.min[0] + shown.max[0]) / 2, (shown.min[1] + shown.max[1]) / 2],
  };
}

function boxOf(meshes: readonly Mesh[], view: View): Box {
  return boxAround(
    (function* () {
      for (const mesh of meshes)
        for (let v = 0; v < mesh.positions.length / 3; v++) yield project(view, vertexAt(mesh, v));
    })(),
  );
}

function overlap(a: Box, b: Box): Box | null {
  const min: Vec2 = [Math.max(a.min[0], b.min[0]), Math.max(a.min[1], b.min[1])];
  const max: Vec2 = [Math.min(a.max[0], b.max[0]), Math.min(a.max[1], b.max[1])];
  return min[0] < max[0] && min[1] < max[1] ? { min, max } : null;
}
