import type { CouponFeature } from '../../printer/coupon/feature.ts';
import type { Mesh } from '../../solid/mesh.ts';
import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  chains,
  clipContour,
  clipSegment,
  dimensioning,
  dimensionSvg,
  filled,
  grown,
  lineType,
  lineView,
  placeDimensions,
  region,
  strokes,
} from '../drawing/index.ts';
import type { Drawing } from './planView.ts';

/** How far to the right of the tower's foot the front view goes, mm on the part. */
export const SHOWN = 14.5;

/** The tower from the front at `scale`, with every height. What lies further along the arm is cut off. */
export function towerView(mesh: Mesh, features: readonly CouponFeature[], scale: number): Drawing {
  const outline = region(mesh, 'front');
  const whole = boxAround(outline.flat());
  const window: Box = { min: [whole.min[0] - 1, whole.min[1] - 1], max: [SHOWN, whole.max[1] + 1] };
  const onPaper = ([x, y]: Readonly<Vec2>): Vec2 => [x * scale, y * scale];
  const lines = lineView([mesh], 'front').visible.flatMap((segment) => {
    const inside = clipSegment(segment, window);
    return inside ? [[onPaper(inside[0]), onPaper(inside[1])] as const] : [];
  });
  const shown = outline
    .map((contour) => clipContour(contour, window).map(onPaper))
    .filter(({ length }) => length > 2);
  const box = boxAround(shown.flat());
  const upright = features.filter(({ measurand }) => measurand.direction[2] === 1);
  const placed = placeDimensions(
    upright.map(({ callout: [a, b], number }) => {
      // What stands further along the arm is measured on the same faces, so it is shown where they are cut off.
      const x = Math.min(a[0], SHOWN - 1);
      return { number, anchors: [onPaper([x, a[2]]), onPaper([x, b[2]])] as const };
    }),
    box,
  );
  const marks = placed.flatMap(({ geometry }) => [
    ...geometry.line,
    ...geometry.extensions.flat(),
    ...(geometry.balloon ? [geometry.balloon] : []),
  ]);
  return {
    svg: [
      filled(shown, 'part-fill'),
      strokes(chains(lines), lineType.adjacentEdge, 'part'),
      ...placed.flatMap(({ dimension, geometry }) => dimensionSvg(dimension, geometry)),
    ],
    box: grown(
      boxAround([box.min, box.max, ...marks].map(([x, y]) => [x, y] as const)),
      dimensioning.balloonRadius + 0.5,
    ),
  };
}
