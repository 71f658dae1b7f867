import { type CrossSection, type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import type { Mesh } from '../../solid/mesh.ts';
import { area } from '../../solid/profile.ts';
import type { Contour } from '../../solid/vector.ts';
import { region } from '../drawing/index.ts';

/** Specks that rounding leaves where sides cross, mm^2. */
const SPECK = 1e-4;

/** What a closed mesh covers of the bed seen from above: outer contours, counter-clockwise, mm. Holes count as
 *  covered: nothing is laid into a part. Throws `RangeError` for a mesh that covers nothing. */
export function shadowOf(kernel: ManifoldToplevel, mesh: Mesh): readonly Contour[] {
  return withScope(kernel, (scope) => {
    const covered = (contours: Contour[]): CrossSection =>
      scope.keep(new kernel.CrossSection(contours, 'NonZero'));
    const outer = (section: CrossSection): Contour[] =>
      (section.toPolygons() as Contour[]).filter((contour) => area(contour) > SPECK);
    // Twice, for pieces that lie in a hole of another one.
    const outline = outer(covered(outer(covered(region(mesh, 'top')))));
    if (outline.length === 0) throw new RangeError('shadowOf requires a mesh that covers some of the bed');
    return outline;
  });
}
