import { type CrossSection, type ManifoldToplevel, withScope } from '../../solid/kernel.ts';
import type { Mesh } from '../../solid/mesh.ts';
import { area } from '../../solid/profile.ts';
import type { Contour, Vec2 } from '../../solid/vector.ts';

/** Specks that rounding leaves where triangles meet, mm^2. */
const SPECK = 1e-4;

/** What a closed mesh covers of the bed seen from above: outer contours, counter-clockwise, mm. Holes count as
 *  covered: nothing is laid into a part. Throws `RangeError` for a mesh that covers nothing. */
export function shadowOf(kernel: ManifoldToplevel, { positions, triangles }: Mesh): readonly Contour[] {
  const at = (vertex: number): Vec2 => [positions[3 * vertex]!, positions[3 * vertex + 1]!];
  const facingUp: Contour[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const corners: Contour = [at(triangles[t]!), at(triangles[t + 1]!), at(triangles[t + 2]!)];
    // From below the same outline is seen again, and walls that stand upright cover nothing.
    if (area(corners) > 0) facingUp.push(corners);
  }
  return withScope(kernel, (scope) => {
    const all = scope.keep(new kernel.CrossSection(facingUp, 'NonZero'));
    const outer = (section: CrossSection): Contour[] =>
      (section.toPolygons() as Contour[]).filter((contour) => area(contour) > SPECK);
    // Once more, for pieces that lay in a hole of another one.
    const outline = outer(scope.keep(new kernel.CrossSection(outer(all), 'NonZero')));
    if (outline.length === 0) throw new RangeError('shadowOf requires a mesh that covers some of the bed');
    return outline;
  });
}
