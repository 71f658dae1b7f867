import type { Contour, Vec2 } from '../../solid/vector.ts';
import { balloonSvg, dimensioning, filled, lineType, strokes, svgDocument, text } from '../drawing/index.ts';
import { bedView, type Standing } from './bedView.ts';
import type { Bed, Plate } from './plateTypes.ts';

export interface TopViewInput {
  readonly title: string;
  readonly bed: Bed;
  /** mm. */
  readonly spacing: number;
  readonly plate: Plate;
  /** The items of the plate, in their order. */
  readonly parts: readonly {
    readonly outline: readonly Contour[];
    readonly name: string;
    readonly height: number;
  }[];
}

/** Around the bed, mm on paper. */
const MARGIN = 8;
const CAPITALS = 3.5;
const LINE = 7;
/** Of numbers in parts too small for a balloon, height of a capital (ISO 3098). */
const SMALL = 2.5;

/** The plate from above, a millimetre on paper for each on the bed: the bed's edge, the margin that stays free, every part
 *  with the number of its kind, and the kinds named below. SVG text. */
export function topView({ title, bed, spacing, plate, parts }: TopViewInput): string {
  const corners = (inset: number): Vec2[] => {
    const [x, y] = [bed.x - inset, bed.y - inset];
    return [
      [inset, inset],
      [x, inset],
      [x, y],
      [inset, y],
      [inset, inset],
    ];
  };
  const { standing } = bedView({ bed, plate, parts });
  const closed = (contours: readonly Contour[]) => contours.map((contour) => [...contour, contour[0]!]);
  const kinds = parts.map(({ name, height }, k) => {
    const count = plate.placements.filter(({ item }) => item === k).length;
    return `${name}, ${count} off, ${height.toFixed(1)} mm high`;
  });
  const below = -MARGIN - LINE * (kinds.length + 1);
  const body = [
    strokes([corners(0)], lineType.visibleEdge, 'machine'),
    strokes([corners(spacing)], lineType.adjacentHidden, 'machine'),
    filled(
      standing.flatMap(({ contours }) => contours),
      'part-fill',
    ),
    strokes(
      standing.flatMap(({ contours }) => closed(contours)),
      lineType.visibleEdge,
      'part',
    ),
    ...standing.flatMap((one) => numbered(one)),
    text([bed.x / 2, -LINE / 2 - 1], `front of the bed, ${bed.x} x ${bed.y} mm`, {
      ...{ height: CAPITALS, mark: 'words' },
    }),
    ...kinds.flatMap((kind, k) => {
      const y = -MARGIN - LINE * (k + 0.75);
      return [
        ...balloonSvg([CAPITALS, y], k + 1),
        text([3 * CAPITALS, y], kind, { height: CAPITALS, mark: 'words', anchor: 'start' }),
      ];
    }),
  ];
  return svgDocument({ min: [-MARGIN, below], max: [bed.x + MARGIN, bed.y + MARGIN] }, title, body);
}

/** The number in a part: in a balloon where one fits, plain in a small part. */
function numbered({ at, long, number }: Standing): readonly string[] {
  if (long >= 3 * dimensioning.balloonRadius) return balloonSvg(at, number);
  return [text(at, String(number), { height: Math.min(SMALL, 0.7 * long), mark: 'number' })];
}
