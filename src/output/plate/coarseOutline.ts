import { type CrossSection, type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import { area } from '../../solid/profile.ts';
import type { Contour } from '../../solid/vector.ts';

/** An outline is laid out by its hull where that covers hardly more: nothing could nest in what is left over. */
const HARDLY_MORE = 1.02;
/** Detail that layouts go without, mm; small against any spacing. */
const DETAIL = 0.05;
/** Of a contour with more vertices the detail is doubled. */
const MOST_VERTICES = 48;

/** An outline with few vertices that covers the given one, in convex pieces. */
export interface CoarseOutline {
  readonly pieces: readonly Contour[];
}

/** Covers contours by as few convex pieces as layouts need, at most some tenths of a millimetre larger. */
export function coarseOutline(kernel: ManifoldToplevel, contours: readonly Contour[]): CoarseOutline {
  return withScope(kernel, (scope) => {
    const whole = scope.keep(
      new kernel.CrossSection(
        contours.map((contour) => [...contour]),
        'NonZero',
      ),
    );
    const hull = scope.keep(whole.hull());
    const cover = (section: CrossSection): CrossSection => {
      for (let detail = DETAIL; ; detail *= 2) {
        const plain = scope.keep(section.simplify(detail));
        // Straight sides stay as they are; only where a curve stood out must the whole grow.
        const covers = scope.keep(section.subtract(plain)).area() < 1e-9;
        const covering = covers
          ? plain
          : scope.keep(scope.keep(plain.offset(detail, 'Miter', 4)).simplify(1e-3));
        if (covering.numVert() <= MOST_VERTICES * covering.numContour()) return covering;
      }
    };
    if (hull.area() <= HARDLY_MORE * whole.area()) return { pieces: cover(hull).toPolygons() as Contour[] };
    const flat = cover(whole).toPolygons() as Contour[];
    const points = flat.flat();
    const pieces = kernel
      .triangulate(flat)
      .map((corners) => corners.map((k) => points[k]!))
      .filter((piece) => area(piece) > 0);
    return { pieces };
  });
}
