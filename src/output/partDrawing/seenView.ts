import type { Mesh } from '../../solid/mesh.ts';
import { dot, type Vec2, type Vec3 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  type LineView,
  lineView,
  type Segment,
  type View,
  type ViewName,
  viewOf,
} from '../drawing/index.ts';

/** The six principal directions to look from. */
export const directions = ['front', 'right', 'left', 'top', 'bottom', 'back'] as const satisfies ViewName[];
export type Direction = (typeof directions)[number];

/** The part as it shows in one view, mm at 1:1; the origin is that of the part. */
export interface SeenView extends LineView {
  readonly view: View;
  readonly box: Box;
}

/** Looks at the part from the six sides, each when it is first asked for. */
export function sixSides(mesh: Mesh): (direction: Direction) => SeenView {
  const known = new Map<Direction, SeenView>();
  return (direction) => {
    const seen = known.get(direction) ?? seenIn(lineView([mesh], direction), viewOf(direction));
    known.set(direction, seen);
    return seen;
  };
}

const seenIn = (lines: LineView, view: View): SeenView => ({ ...lines, view, box: boxOf(lines) });

const boxOf = ({ visible, hidden }: LineView): Box =>
  boxAround([...visible, ...hidden].flat().map(([x, y]) => [x!, y!] as const));

/** The same view with the paper turned so that `view` holds; both look out of one direction. */
export function turnedTo({ view: from, visible, hidden }: SeenView, view: View): SeenView {
  const [xx, xy] = [dot(view.right, from.right), dot(view.right, from.up)].map(Math.round) as Vec2;
  const [yx, yy] = [dot(view.up, from.right), dot(view.up, from.up)].map(Math.round) as Vec2;
  const point = ([x, y]: Readonly<Vec2>): Vec2 => [xx * x + xy * y, yx * x + yy * y];
  const turned = (lines: readonly Segment[]): Segment[] =>
    lines.map(([p, q]) => [point(p), point(q)] as const);
  return seenIn({ visible: turned(visible), hidden: turned(hidden) }, view);
}

/** Enlarged onto paper. */
export function enlarged(seen: SeenView, scale: number): SeenView {
  const lines = (of: readonly Segment[]): Segment[] =>
    of.map(([p, q]) => [
      [p[0] * scale, p[1] * scale],
      [q[0] * scale, q[1] * scale],
    ]);
  return seenIn({ visible: lines(seen.visible), hidden: lines(seen.hidden) }, seen.view);
}

/** Where another view stands beside the main one, by where it looks from. */
export type Beside = 'left' | 'right' | 'above' | 'below';

const opposite = (v: Readonly<Vec3>): Vec3 => [-v[0], -v[1], -v[2]];

/** What is seen from one side of the main view, the paper turned so that edges stay level with each other (ISO 5456-2). */
export function viewBeside({ right, up, toward }: View, beside: Beside): View {
  switch (beside) {
    case 'left':
      return { right: toward, up, toward: opposite(right) };
    case 'right':
      return { right: opposite(toward), up, toward: right };
    case 'above':
      return { right, up: opposite(toward), toward: up };
    case 'below':
      return { right, up: toward, toward: opposite(up) };
  }
}

/** Which of the six sides a view looks out of. */
export const directionOf = ({ toward }: View): Direction =>
  directions.find((direction) => dot(viewOf(direction).toward, toward) > 0.999)!;
