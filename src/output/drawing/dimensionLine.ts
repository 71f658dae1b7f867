import type { Vec2 } from '../../solid/vector.ts';
import { lineType, lineWidth } from './lineType.ts';
import { disc, filled, strokes, text } from './svg.ts';

/** Distances of a dimension on paper, mm. ISO 129-1:2018 gives gap and overshoot as about eight line widths; the
 *  arrowhead is the closed filled one. */
export const dimensioning = {
  /** From the outline to the start of an extension line, and past the dimension line. */
  gap: 8 * lineWidth.narrow * 0.5,
  overshoot: 8 * lineWidth.narrow,
  arrowLength: 3,
  arrowWidth: 1,
  /** Height of figures (ISO 3098-1 series). */
  figure: 2.5,
  balloonRadius: 2.7,
  /** Radius of the mark where a jaw touches. */
  touch: 0.7,
  /** What stands outside when the arrows point inward. */
  tail: 7,
} as const;

/** One linear dimension, ready to be drawn. Paper coordinates, mm. */
export interface DimensionLine {
  /** Points measured between. */
  readonly anchors: readonly [Readonly<Vec2>, Readonly<Vec2>];
  /** Distance of the dimension line from the first anchor, along the left-hand normal of anchor 0 -> 1; may be
   *  negative. */
  readonly offset: number;
  /** Whether a balloon that does not fit between the arrows stands at the other end: left, or below. */
  readonly flipped?: boolean;
  /** Goes into the balloon. */
  readonly number?: number;
  /** Stands above the line. */
  readonly words?: string;
}

/** Where the parts of a dimension fall on paper. */
export interface DimensionGeometry {
  readonly along: Readonly<Vec2>;
  readonly ends: readonly [Readonly<Vec2>, Readonly<Vec2>];
  /** The drawn line, tails included. */
  readonly line: readonly [Readonly<Vec2>, Readonly<Vec2>];
  readonly extensions: readonly (readonly [Readonly<Vec2>, Readonly<Vec2>])[];
  /** Arrows between the extension lines, or pointing at them from outside. */
  readonly inside: boolean;
  readonly balloon: Readonly<Vec2> | null;
  readonly words: Readonly<Vec2> | null;
}

/** Lays out one dimension: extension lines, line, where its balloon and words go. Short ones have their arrows
 *  outside and the balloon at the end of a tail. Throws `RangeError` when the anchors coincide. */
export function dimensionGeometry({
  anchors,
  offset,
  flipped = false,
  number,
  words,
}: DimensionLine): DimensionGeometry {
  const [a, b] = anchors;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (!(length > 1e-6)) throw new RangeError('dimensionGeometry requires anchors apart from each other');
  const along: Vec2 = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const normal: Vec2 = [-along[1], along[0]];
  const { arrowLength, balloonRadius, tail, gap, overshoot, figure } = dimensioning;
  const step = (p: Readonly<Vec2>, u: number, v: number): Vec2 => [
    p[0] + u * along[0] + v * normal[0],
    p[1] + u * along[1] + v * normal[1],
  ];
  const ends = [step(a, 0, offset), step(b, 0, offset)] as const;
  const inside = length >= 2 * arrowLength + (number === undefined ? 1 : 2 * balloonRadius + 1);
  const side = Math.sign(offset);
  const extensions =
    Math.abs(offset) > gap
      ? [a, b].map((p) => [step(p, 0, side * gap), step(p, 0, offset + side * overshoot)] as const)
      : [];
  // Outside, the balloon goes to the right of the line, or above it: where a reader looks for the figure.
  const rightward = along[0] > 1e-9 || (Math.abs(along[0]) <= 1e-9 && along[1] > 0);
  const forward = rightward !== flipped;
  const line = inside ? ends : ([step(a, -tail, offset), step(b, tail, offset)] as const);
  const middle = step(a, length / 2, offset);
  const balloonAt = forward ? step(line[1], balloonRadius, 0) : step(line[0], -balloonRadius, 0);
  return {
    along,
    ends,
    line,
    extensions,
    inside,
    balloon: number === undefined ? null : inside ? middle : balloonAt,
    words: words === undefined ? null : [middle[0], middle[1] + figure / 2 + 1],
  };
}

/** Lines and arrowheads of one dimension; arrowheads are closed. */
export function dimensionMarks({ along, ends, line, extensions, inside }: DimensionGeometry): {
  readonly lines: readonly (readonly Readonly<Vec2>[])[];
  readonly arrows: readonly (readonly Readonly<Vec2>[])[];
} {
  const { arrowLength, arrowWidth } = dimensioning;
  const arrow = (tip: Readonly<Vec2>, way: number): Vec2[] => {
    const back: Vec2 = [tip[0] - way * along[0] * arrowLength, tip[1] - way * along[1] * arrowLength];
    const half = arrowWidth / 2;
    return [
      [...tip],
      [back[0] - along[1] * half, back[1] + along[0] * half],
      [back[0] + along[1] * half, back[1] - along[0] * half],
    ];
  };
  return {
    lines: [...extensions, line],
    arrows: [arrow(ends[0], inside ? -1 : 1), arrow(ends[1], inside ? 1 : -1)],
  };
}

/** Marks of one dimension as SVG. */
export function dimensionSvg(dimension: DimensionLine, geometry = dimensionGeometry(dimension)): string[] {
  const { balloon, words } = geometry;
  const { figure } = dimensioning;
  const { lines, arrows } = dimensionMarks(geometry);
  return [
    strokes(lines, lineType.dimensionLine, 'dimension'),
    filled(arrows, 'arrow'),
    ...dimension.anchors.map((p) => disc(p, dimensioning.touch, 'touch')),
    ...(balloon && dimension.number !== undefined ? balloonSvg(balloon, dimension.number) : []),
    ...(words && dimension.words !== undefined
      ? [text(words, dimension.words, { height: figure, mark: 'words' })]
      : []),
  ];
}

/** A numbered circle (ISO 6433 item reference). */
export const balloonSvg = (at: Readonly<Vec2>, number: number): string[] => [
  disc(at, dimensioning.balloonRadius, 'balloon', lineWidth.narrow),
  text(at, String(number), { height: dimensioning.figure, mark: 'number' }),
];
