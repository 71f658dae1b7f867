import type { Mesh } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  chains,
  grown,
  lineType,
  lineView,
  lineWidth,
  type Segment,
  strokes,
  svgDocument,
} from '../drawing/index.ts';

/** A part to be shown in the round. */
export interface IsometricInput {
  readonly name: string;
  readonly mesh: Mesh;
}

/** The part in the round (isometric, ISO 5456-3), hidden lines left out, within `width` x `height` mm. */
export function isometricDrawing(
  { name, mesh }: IsometricInput,
  [width, height]: readonly [number, number] = [80, 60],
): string {
  const { svg, box } = isometricMarks(mesh, [width - 2, height - 2]);
  return svgDocument(grown(box, 1), `${name}, isometric`, svg);
}

/** Its marks and the paper they take, for a drawing that has more on it. The picture is never larger than ten times the part. */
export function isometricMarks(
  mesh: Mesh,
  [width, height]: readonly [number, number],
): { readonly svg: string[]; readonly box: Box } {
  const { visible } = lineView([mesh], 'isometric');
  const whole = boxOf(visible);
  const scale = Math.min(10, width / (whole.max[0] - whole.min[0]), height / (whole.max[1] - whole.min[1]));
  const lines = visible.map(
    ([p, q]): Segment => [
      [p[0] * scale, p[1] * scale],
      [q[0] * scale, q[1] * scale],
    ],
  );
  return {
    svg: [strokes(chains(lines), { ...lineType.visibleEdge, width: lineWidth.narrow * 1.4 }, 'part')],
    box: boxOf(lines),
  };
}

const boxOf = (lines: readonly Segment[]): Box => boxAround(lines.flat().map(([x, y]): Vec2 => [x!, y!]));
