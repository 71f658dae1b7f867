import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  chains,
  decimal,
  dimensioning,
  escapeText,
  filled,
  fittedDashes,
  type LineStyle,
  lineType,
  lineWidth,
  type Segment,
  scaleName,
  strokes,
  svgDocument,
  text,
} from '../drawing/index.ts';
import { drawnViews, type ViewsAtScale } from './drawnViews.ts';
import { isometricMarks } from './isometricDrawing.ts';
import { CAPTION, layOut, type SheetLayout } from './layOut.ts';
import { notesSvg } from './notesSvg.ts';
import { papers, TITLE_WIDTH } from './paper.ts';
import type { PartDrawingInput } from './partDrawingInput.ts';
import type { PaperView, PlacedSize } from './placeSizes.ts';
import { directionOf } from './seenView.ts';
import { sizeTextSvg, spoken } from './sizeText.ts';
import { TITLE_HEIGHT, titleBlockSvg } from './titleBlockSvg.ts';

/** The drawing of a part: one sheet as SVG, a millimetre in it a millimetre on paper. Views in orthographic projection (ISO 128-3, ISO
 *  5456-2), hidden edges dashed, centre lines, sizes as the print must have them with their deviations (ISO 129-1), a
 *  picture in the round, a rule to check the paper by and a title block (ISO 7200).
 *
 *  At 1:1 on A4, on A3 where it must be, so that the print can be laid on it; only what fits neither is drawn smaller. A small
 *  part is enlarged, and stands beside that in full size. The same input gives the same text. Throws `RangeError` when
 *  the part does not fit A3 at 1:100. */
export function partDrawing(input: PartDrawingInput): string {
  const layout = layOut(drawnViews(input));
  const { paper, frame, main, fullSize, inTheRound } = layout;
  const [width, height] = papers[paper];
  const { fields, projection, mesh } = input;
  const title = [fields.title, fields.part].filter((words) => words !== '').join(', ');
  const scale = scaleName(main.of.scale);
  return svgDocument({ min: [0, 0], max: [width, height] }, `${title}: part drawing`, [
    `<path fill="#fff" d="M0 0H${width}V-${height}H0Z"/>`,
    ...frameSvg(frame, [width, height]),
    ...titleBlockSvg(fields, { scale, paper, projection }, [frame.max[0], frame.min[1]]),
    ...notesSvg(notes(layout), [frame.max[0] - TITLE_WIDTH, frame.min[1] + TITLE_HEIGHT]),
    ...viewsSvg(main.of, main.place, lineWidth.wide),
    ...(fullSize ? [...viewsSvg(fullSize.of, fullSize.place, lineWidth.narrow), caption(fullSize)] : []),
    ...(inTheRound ? roundSvg(mesh, inTheRound) : []),
  ]);
}

/** Frame of 0.7 mm and centring marks (ISO 5457:1999, 4.2 and 4.3). */
function frameSvg({ min, max }: Box, [width, height]: readonly [number, number]): string[] {
  const [x, y] = [width / 2, height / 2];
  const past = 5;
  const corners: Vec2[] = [
    [min[0], min[1]],
    [max[0], min[1]],
    [max[0], max[1]],
    [min[0], max[1]],
    [min[0], min[1]],
  ];
  const marks: Segment[] = [
    [
      [x, min[1] - past],
      [x, min[1]],
    ],
    [
      [x, max[1]],
      [x, max[1] + past],
    ],
    [
      [min[0] - past, y],
      [min[0], y],
    ],
    [
      [max[0], y],
      [max[0] + past, y],
    ],
  ];
  return [strokes([corners, ...marks], { width: 0.7, dashes: [] }, 'frame')];
}

function notes({ views: { unseen }, main, fullSize }: SheetLayout): string[] {
  const real = main.of.scale === 1 || fullSize !== null;
  return [
    'Sizes are those of the print at 20 °C, let cool.',
    'In brackets: over all, as drawn.',
    real
      ? `Printed at 100 %, lay the print on the views${fullSize ? ' 1:1' : ''} to compare.`
      : 'Smaller than the part: no print can be laid on it.',
    ...unseen.map(({ name, text: { figure, upper, lower } }) =>
      `${name}: ${figure} ${upper} ${lower}`.trimEnd(),
    ),
  ];
}

const moved = ([x, y]: Readonly<Vec2>, body: readonly string[], attributes = ''): string[] => [
  `<g${attributes} transform="translate(${decimal(x)} ${decimal(-y)})">`,
  ...body.filter((part) => part !== ''),
  '</g>',
];

function viewsSvg(
  { views, sizes, places, scale }: ViewsAtScale,
  [x, y]: Readonly<Vec2>,
  width: number,
): string[] {
  return views.flatMap((view, k) => {
    const [u, v] = places[k]!;
    return moved(
      [x + u, y + v],
      [...linesSvg(view, width), ...sizes.filter((size) => size.view === k).flatMap(sizeSvg)],
      ` class="view" data-from="${directionOf(view.seen.view)}" data-scale="${scaleName(scale)}"`,
    );
  });
}

function linesSvg({ seen: { visible, hidden }, centres }: PaperView, width: number): string[] {
  return [
    ...broken(chains(centres), lineType.centreLine, 'centre'),
    ...broken(chains(hidden), lineType.hiddenEdge, 'hidden'),
    strokes(chains(visible), { ...lineType.visibleEdge, width }, 'part'),
  ];
}

/** Hidden edges shorter than this on paper are left out, mm: no two dashes of them would show. */
const SHORTEST_HIDDEN = 1.5;

/** Lines of broken type, each with dashes that end where it ends. */
function broken(
  lines: readonly (readonly Readonly<Vec2>[])[],
  style: LineStyle,
  mark: 'centre' | 'hidden',
): string[] {
  const alike = new Map<string, { style: LineStyle; lines: (readonly Readonly<Vec2>[])[] }>();
  for (const line of lines) {
    const length = line
      .slice(1)
      .reduce((sum, p, k) => sum + Math.hypot(p[0] - line[k]![0], p[1] - line[k]![1]), 0);
    if (mark === 'hidden' && length < SHORTEST_HIDDEN) continue;
    const fitted = fittedDashes(style, length);
    const key = fitted.dashes.map(decimal).join();
    const group = alike.get(key) ?? { style: fitted, lines: [] };
    group.lines.push(line);
    alike.set(key, group);
  }
  return [...alike.values()].map((group) => strokes(group.lines, group.style, mark));
}

function sizeSvg({ id, name, text: of, line, extensions, arrows, room }: PlacedSize): string[] {
  const { arrowLength, arrowWidth } = dimensioning;
  const heads = arrows.map(([tip, [c, s]]): Vec2[] => {
    const back: Vec2 = [tip[0] - c * arrowLength, tip[1] - s * arrowLength];
    const half = arrowWidth / 2;
    return [[...tip], [back[0] - s * half, back[1] + c * half], [back[0] + s * half, back[1] - c * half]];
  });
  const degrees = (Math.atan2(room.along[1], room.along[0]) * 180) / Math.PI;
  return [
    `<g class="size" data-size="${escapeText(id)}">`,
    spoken(of, name),
    strokes([...line, ...extensions], lineType.dimensionLine, 'dimension'),
    filled(heads, 'arrow'),
    `<g transform="translate(${decimal(room.middle[0])} ${decimal(-room.middle[1])})${degrees === 0 ? '' : ` rotate(${decimal(-degrees)})`}">`,
    ...sizeTextSvg(of),
    '</g>',
    '</g>',
  ];
}

const caption = ({ of: { box }, place: [x, y] }: NonNullable<SheetLayout['fullSize']>): string =>
  text([x + (box.min[0] + box.max[0]) / 2, y + box.min[1] - CAPTION / 2 - 1], 'full size 1:1', {
    height: dimensioning.figure,
    mark: 'words',
  });

function roundSvg(mesh: PartDrawingInput['mesh'], { min, max }: Box): string[] {
  const { svg, box } = isometricMarks(mesh, [max[0] - min[0], max[1] - min[1]]);
  const middle = ([0, 1] as const).map((k) => (min[k] + max[k]) / 2 - (box.min[k] + box.max[k]) / 2) as Vec2;
  return moved(middle, svg, ' class="in-the-round"');
}
