import { type CrossSection, type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';
import { type CoarseOutline, coarseOutline } from './coarseOutline.ts';
import type { PlateItem, Turn } from './plateTypes.ts';
import { boxOf, turned } from './turned.ts';

/** A part in one of its turns. */
export interface Pose {
  readonly item: number;
  readonly turn: Turn;
  /** Exact; front left corner of its box at the origin. */
  readonly contours: readonly Contour[];
  readonly coarse: CoarseOutline;
  /** Width and depth of its box, mm. */
  readonly size: Vec2;
}

/** An item turned by `turn`; `k` is its place in the list. */
export function poseOf(kernel: ManifoldToplevel, { outline }: PlateItem, k: number, turn: Turn): Pose {
  const contours = turned(outline, turn);
  return { item: k, turn, contours, size: boxOf(contours).max, coarse: coarseOutline(kernel, contours) };
}

/** `laid`, the item as its job lays it, and those of its other turns that make a difference. */
export function posesOf(kernel: ManifoldToplevel, item: PlateItem, laid: Pose): readonly Pose[] {
  const poses = [laid];
  for (const turn of item.turns.slice(1)) {
    const contours = turned(item.outline, turn);
    if (!poses.some((other) => sameShape(kernel, other.contours, contours)))
      poses.push(poseOf(kernel, item, laid.item, turn));
  }
  return poses;
}

/** Whether two outlines differ by less than a hundredth of a millimetre all along. */
const sameShape = (kernel: ManifoldToplevel, a: readonly Contour[], b: readonly Contour[]): boolean =>
  withScope(kernel, (scope) => {
    const [p, q] = [a, b].map((contours) =>
      scope.keep(
        new kernel.CrossSection(
          contours.map((contour) => [...contour]),
          'NonZero',
        ),
      ),
    ) as [CrossSection, CrossSection];
    const grown = (of: CrossSection) => scope.keep(of.offset(0.01, 'Miter', 4));
    return scope.keep(p.subtract(grown(q))).isEmpty() && scope.keep(q.subtract(grown(p))).isEmpty();
  });
