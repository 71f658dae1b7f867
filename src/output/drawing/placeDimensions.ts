import type { Vec2 } from '../../solid/vector.ts';
import {
  type DimensionGeometry,
  type DimensionLine,
  dimensionGeometry,
  dimensioning,
} from './dimensionLine.ts';
import { reachOf, segmentsCross } from './segments.ts';
import type { Box, Segment } from './view.ts';

/** A dimension that still wants a place. Paper coordinates, mm. */
export type UnplacedDimension = Omit<DimensionLine, 'offset'>;

export interface PlacedDimension {
  readonly dimension: DimensionLine;
  readonly geometry: DimensionGeometry;
}

/** Distance of the first dimension line from the outline and of the next ones from each other, mm. */
const FIRST = 8;
const LANE = 7;
const LANES = 16;
/** Least distance between the marks of two dimensions, mm. */
const CLEAR = 1;
/** What it costs, as mm of extension line, when lines cross, when a balloon stands left or below, and when marks
 *  touch, which only happens where nothing else is left. */
const cost = { crossing: 15, flipped: 4, touching: 500 } as const;

/** Finds a place outside of `outline` for each dimension: short ones first and nearest, in lanes parallel to the
 *  side, on the side with the shorter extension lines, so that no line runs through a balloon or along another
 *  line, and as few as possible cross. Greedy: good for the dozen dimensions of a sheet, not promised to be best.
 *  Comes back in the order given. */
export function placeDimensions(dimensions: readonly UnplacedDimension[], outline: Box): PlacedDimension[] {
  const length = ({ anchors: [a, b] }: UnplacedDimension): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
  const order = dimensions
    .map((_, k) => k)
    .sort((i, j) => length(dimensions[i]!) - length(dimensions[j]!) || i - j);
  const placed: PlacedDimension[] = [];
  const result = new Array<PlacedDimension>(dimensions.length);
  for (const k of order) {
    const best = cheapest(dimensions[k]!, outline, placed);
    placed.push(best);
    result[k] = best;
  }
  return result;
}

function cheapest(
  dimension: UnplacedDimension,
  outline: Box,
  placed: readonly PlacedDimension[],
): PlacedDimension {
  let best: { total: number; found: PlacedDimension } | undefined;
  for (const side of [1, -1]) {
    const reach = reachOf(dimension.anchors, outline, side);
    for (let lane = 0; lane < LANES; lane++) {
      for (const flipped of [false, true]) {
        const candidate = { ...dimension, offset: side * (reach + FIRST + lane * LANE), flipped };
        const found = { dimension: candidate, geometry: dimensionGeometry(candidate) };
        const { crossings, touching } = conflicts(found.geometry, placed);
        const total =
          Math.abs(candidate.offset) +
          cost.crossing * crossings +
          cost.touching * touching +
          (flipped ? cost.flipped : 0);
        if (!best || total < best.total - 1e-9) best = { total, found };
      }
    }
  }
  return best!.found;
}

/** How often extension lines cross what is placed, and how many marks come too near to others. */
function conflicts(
  own: DimensionGeometry,
  placed: readonly PlacedDimension[],
): { crossings: number; touching: number } {
  let [crossings, touching] = [0, 0];
  const round = dimensioning.balloonRadius + CLEAR;
  for (const { geometry: other } of placed) {
    if (linesTouch(own.line, other.line)) touching++;
    for (const [one, two] of [
      [own, other],
      [other, own],
    ] as const) {
      const { balloon } = one;
      if (balloon) {
        for (const line of [two.line, ...two.extensions]) if (pointToLine(balloon, line) < round) touching++;
        if (two.balloon && distance(balloon, two.balloon) < round + dimensioning.balloonRadius) touching++;
      }
      for (const extension of one.extensions) if (segmentsCross(extension, two.line)) crossings++;
    }
  }
  return { crossings, touching };
}

const distance = (p: Readonly<Vec2>, q: Readonly<Vec2>): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** Too near to be told apart; lines that cross cleanly are left to the count of crossings. */
const linesTouch = (a: Segment, b: Segment): boolean =>
  segmentsCross(a, b) ||
  Math.min(pointToLine(a[0], b), pointToLine(a[1], b), pointToLine(b[0], a), pointToLine(b[1], a)) <
    CLEAR + dimensioning.arrowWidth;

function pointToLine(p: Readonly<Vec2>, [a, b]: Segment): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return distance(p, [a[0] + t * dx, a[1] + t * dy]);
}
