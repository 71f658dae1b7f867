import { type Mesh, vertexAt } from '../../solid/mesh.ts';
import type { Vec2, Vec3 } from '../../solid/vector.ts';
import { type Box, boxAround, grown, project, type View } from '../drawing/index.ts';
import type { DimensionedView } from './chooseViews.ts';

/** How much of the machine is shown around the part, as a share of the part's larger side: at least, and where the
 *  paper has room for it. */
const around = { least: 0.12, most: 0.3 } as const;

type Shown = Pick<DimensionedView, 'view' | 'readings'>;

/** Width and height. */
export const sizeOf = ({ min, max }: Box): [number, number] => [max[0] - min[0], max[1] - min[1]];

/** Whether a point lies so near to the part that it belongs on a detail of it. */
export function nearTo(part: Mesh): (p: Readonly<Vec3>) => boolean {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (const p of pointsOf(part)) {
    p.forEach((c, k) => {
      min[k] = Math.min(min[k]!, c);
      max[k] = Math.max(max[k]!, c);
    });
  }
  const margin = around.most * Math.max(...max.map((c, k) => c - min[k]!));
  return (p) => p.every((c, k) => c >= min[k]! - margin && c <= max[k]! + margin);
}

/** The least of a view that is worth showing, mm at 1:1: part with a little of the machine, and anchors. */
export function leastWindow(part: Mesh, { view, readings }: Shown): Box {
  const outline = outlineOf(part, view);
  const rim = rimOf(outline, around.least);
  const anchors = readings.flatMap(({ callout }) => callout!.map((p) => project(view, p)));
  const boxes = [
    grown(outline, rim),
    ...anchors.map(([x, y]) => grown({ min: [x, y], max: [x, y] }, rim / 3)),
  ];
  return boxAround(boxes.flatMap(({ min, max }) => [min, max]).map(([x, y]) => [x, y] as const));
}

/** The least window with more of the machine around the part, as far as it then still fits `paper` (mm) at this
 *  scale. */
export function easyWindow(part: Mesh, shown: Shown, paper: readonly [number, number], scale: number): Box {
  const least = leastWindow(part, shown);
  const outline = outlineOf(part, shown.view);
  const wish = grown(outline, rimOf(outline, around.most));
  const spare = sizeOf(least).map((side, k) => Math.max(0, (paper[k]! / scale - side) / 2));
  const side = (k: 0 | 1): [number, number] => [
    least.min[k] - Math.min(spare[k]!, Math.max(0, least.min[k] - wish.min[k])),
    least.max[k] + Math.min(spare[k]!, Math.max(0, wish.max[k] - least.max[k])),
  ];
  const [x, y] = [side(0), side(1)];
  return { min: [x[0], y[0]] as Vec2, max: [x[1], y[1]] as Vec2 };
}

const rimOf = (outline: Box, share: number): number => share * Math.max(...sizeOf(outline));

const outlineOf = (part: Mesh, view: View): Box =>
  boxAround([...pointsOf(part)].map((p) => project(view, p)));

function* pointsOf(mesh: Mesh): Generator<Vec3> {
  for (let v = 0; v < mesh.positions.length / 3; v++) yield vertexAt(mesh, v);
}
