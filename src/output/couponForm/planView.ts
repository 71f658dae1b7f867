import type { CouponFeature } from '../../printer/coupon/feature.ts';
import { ground } from '../../printer/coupon/ground.ts';
import type { Mesh } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  balloonSvg,
  boxAround,
  chains,
  dimensionGeometry,
  dimensioning,
  dimensionSvg,
  disc,
  filled,
  grown,
  lineType,
  lineView,
  region,
  strokes,
} from '../drawing/index.ts';
import { spreadApart } from './spreadApart.ts';

/** Marks of a drawing and the paper they take, mm. */
export interface Drawing {
  readonly svg: readonly string[];
  readonly box: Box;
}

/** Lengths from this on, mm on the part, get a dimension line of their own beside the part. */
const LONG = 50;
/** From the part to its balloons, to its first dimension line, and from that to the next, mm on paper. */
const ASIDE = 8;
const FIRST_LANE = 13.5;
const LANE = 6.5;
/** Where on the diagonal its balloon stands, as a share of it: the tower is drawn beside its middle. */
const OFF_MIDDLE = 0.36;
/** Distance between balloons, mm on paper. */
const APART = 2 * dimensioning.balloonRadius + 1;

/** The coupon from above at `scale`, with every length that lies level: blue dots where jaws touch, a line between them,
 *  and a balloon beside the part that leads to it. */
export function planView(mesh: Mesh, features: readonly CouponFeature[], scale: number): Drawing {
  const onPaper = ([x, y]: readonly [number, number, number]): Vec2 => [x * scale, y * scale];
  const outline = region(mesh, 'top').map((contour) => contour.map(([x, y]): Vec2 => [x * scale, y * scale]));
  const part = boxAround(outline.flat());
  const lines = lineView([mesh], 'top').visible.map(
    ([p, q]) =>
      [
        [p[0] * scale, p[1] * scale],
        [q[0] * scale, q[1] * scale],
      ] as const,
  );
  const level = features.filter(({ measurand }) => measurand.direction[2] === 0);
  const long = level.filter(({ nominal }) => nominal >= LONG);
  const short = level.filter((feature) => !long.includes(feature));
  const svg = [filled(outline, 'part-fill'), strokes(chains(lines), lineType.adjacentEdge, 'part')];
  const marks: Readonly<Vec2>[] = [];

  const taken = { x: 0, y: 0 };
  for (const { axis, callout, number } of long) {
    const anchors = [onPaper(callout[0]), onPaper(callout[1])] as const;
    // Left of the way from the first to the second: below for x, left for y; a diagonal is drawn where it is.
    const lane = axis === 'x' || axis === 'y' ? FIRST_LANE + LANE * taken[axis]++ : 0;
    const offset =
      axis === 'x'
        ? -(anchors[0][1] - part.min[1] + lane)
        : axis === 'y'
          ? anchors[0][0] - part.min[0] + lane
          : 0;
    const dimension = { anchors, offset };
    const geometry = dimensionGeometry(dimension);
    const share = typeof axis === 'string' ? 1 / 2 : OFF_MIDDLE;
    const [a, b] = geometry.ends;
    const balloon: Vec2 = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    svg.push(...dimensionSvg(dimension, geometry), ...balloonSvg(balloon, number));
    marks.push(...geometry.line, ...geometry.extensions.flat());
  }

  for (const [side, group] of bySide(short)) {
    const run = side === 'above' || side === 'below' ? 0 : 1;
    // Posts have two lengths about one middle; what tells them apart is where the jaws touch.
    const aims = group.map(({ kind, callout, at }) => onPaper(kind === 'post' ? callout[1] : at));
    const places = spreadApart(
      aims.map((aim) => aim[run]),
      APART,
    );
    group.forEach(({ callout, number }, k) => {
      const ends = [onPaper(callout[0]), onPaper(callout[1])] as const;
      const balloon = balloonAt(side, places[k]!, ends[1], scale);
      svg.push(
        strokes([[balloon, aims[k]!]], lineType.dimensionLine, 'dimension'),
        strokes([ends], lineType.visibleEdge, 'dimension'),
        ...ends.map((end) => disc(end, dimensioning.touch, 'touch')),
        ...balloonSvg(balloon, number),
      );
      marks.push(balloon);
    });
  }
  const rim = dimensioning.balloonRadius + 0.5;
  return { svg, box: grown(boxAround([part.min, part.max, ...marks].map(([x, y]) => [x, y] as const)), rim) };
}

/** Where a feature's balloon stands: above the arm along x, right of the arm along y or of the corner, outside of the
 *  corner's slots, beyond the end of a slanted length. */
type Side = 'above' | 'right' | 'beside' | 'below' | 'left' | 'beyond';

function bySide(features: readonly CouponFeature[]): Map<Side, CouponFeature[]> {
  const sides = new Map<Side, CouponFeature[]>();
  for (const feature of features) {
    const side = sideOf(feature);
    sides.set(side, [...(sides.get(side) ?? []), feature]);
  }
  return sides;
}

function sideOf({ at: [x, y], kind, axis }: CouponFeature): Side {
  if (typeof axis !== 'string') return 'beyond';
  if (x > ground.corner) return 'above';
  if (y > ground.corner) return 'right';
  if (kind === 'slot') return axis === 'x' ? 'below' : 'left';
  return 'beside';
}

function balloonAt(side: Side, place: number, end: Readonly<Vec2>, scale: number): Vec2 {
  switch (side) {
    case 'above':
      return [place, scale * ground.arm + ASIDE];
    case 'right':
      return [scale * ground.arm + ASIDE, place];
    case 'beside':
      return [scale * ground.corner + ASIDE, place + ASIDE];
    case 'below':
      return [place, -ASIDE];
    case 'left':
      return [-ASIDE, place];
    case 'beyond':
      return [end[0] + ASIDE * Math.SQRT1_2, end[1] + ASIDE * Math.SQRT1_2];
  }
}
