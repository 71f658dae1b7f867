import type { Mesh } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  chains,
  clipContour,
  clipSegment,
  filled,
  type LineView,
  lineType,
  lineView,
  region,
  type Segment,
  strokes,
  type View,
} from '../drawing/index.ts';
import type { SheetInput } from './sheetInput.ts';

type Contours = readonly (readonly Readonly<Vec2>[])[];

/** Part and machine as seen, mm. */
export interface SeenParts {
  readonly part: LineView;
  /** What the part covers, to be filled by the non-zero rule. */
  readonly partRegion: Contours;
  readonly hosts: readonly { readonly name: string; readonly lines: LineView }[];
  readonly hostRegion: Contours;
}

/** Looks at part and machine from any side, once for each view. The machine is as if made of glass: it hides
 *  itself, and the part hides it, but it never hides the part. */
export function glassMachine({ part, hosts }: SheetInput['meshes']): (view: View) => SeenParts {
  const meshes = hosts.map(({ mesh }) => mesh);
  const known = new Map<View, SeenParts>();
  const look = (view: View): SeenParts => ({
    part: lineView([part], view),
    partRegion: region(part, view),
    hosts: hosts.map(({ name, mesh }) => ({
      name,
      lines: lineView([mesh], view, [part, ...meshes.filter((other) => other !== mesh)]),
    })),
    hostRegion: meshes.flatMap((mesh: Mesh) => region(mesh, view)),
  });
  return (view) => {
    const seen = known.get(view) ?? look(view);
    known.set(view, seen);
    return seen;
  };
}

/** What falls in a window, enlarged onto paper. */
export function cutOut(seen: SeenParts, window: Box, scale: number): SeenParts {
  const onPaper = ([x, y]: Readonly<Vec2>): Vec2 => [x * scale, y * scale];
  const segments = (of: readonly Segment[]): Segment[] =>
    of.flatMap((segment) => {
      const inside = clipSegment(segment, window);
      return inside ? [[onPaper(inside[0]), onPaper(inside[1])] as const] : [];
    });
  const lines = ({ visible, hidden }: LineView): LineView => ({
    visible: segments(visible),
    hidden: segments(hidden),
  });
  const contours = (of: Contours): Contours =>
    of.map((contour) => clipContour(contour, window).map(onPaper)).filter((contour) => contour.length > 2);
  return {
    part: lines(seen.part),
    partRegion: contours(seen.partRegion),
    hosts: seen.hosts.map(({ name, lines: of }) => ({ name, lines: lines(of) })),
    hostRegion: contours(seen.hostRegion),
  };
}

/** Without the hidden edges: in the round, dashes behind dashes only puzzle. */
export const withoutHidden = (seen: SeenParts): SeenParts => ({
  ...seen,
  part: { ...seen.part, hidden: [] },
  hosts: seen.hosts.map((host) => ({ ...host, lines: { ...host.lines, hidden: [] } })),
});

/** The rectangle around all lines. */
export const extentOf = ({ part, hosts }: SeenParts): Box =>
  boxAround(
    [part, ...hosts.map(({ lines }) => lines)]
      .flatMap(({ visible, hidden }) => [...visible, ...hidden])
      .flatMap(([p, q]) => [[...p], [...q]] as [number, number][]),
  );

/** Part and machine as SVG, the part on top. */
export function seenSvg({ part, partRegion, hosts, hostRegion }: SeenParts): string[] {
  const machine = (pick: 'visible' | 'hidden') => chains(hosts.flatMap(({ lines }) => lines[pick]));
  return [
    filled(hostRegion, 'machine-fill'),
    filled(partRegion, 'part-fill'),
    strokes(machine('hidden'), lineType.adjacentHidden, 'machine'),
    strokes(machine('visible'), lineType.adjacentEdge, 'machine'),
    strokes(chains(part.hidden), lineType.hiddenEdge, 'part'),
    strokes(chains(part.visible), lineType.visibleEdge, 'part'),
  ];
}
