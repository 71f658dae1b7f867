import { area } from '../../solid/profile.ts';
import type { Bed, PlateItem } from './plateTypes.ts';

/** Whether parts take more area than the bed has, so that no layout whatever holds them. With half the spacing around them
 *  they do not overlap and stay within half the spacing of the edge; a shadow of area A so grown covers at least
 *  (sqrt(A) + sqrt(pi) spacing / 2)^2, the area of a disc of the same A so grown (Brunn and Minkowski). */
export function moreThanBed(items: readonly PlateItem[], bed: Bed, spacing: number): boolean {
  const grown = items.reduce((sum, { outline, count }) => {
    const covered = outline.reduce((all, contour) => all + area(contour), 0);
    return sum + count * (Math.sqrt(covered) + (Math.sqrt(Math.PI) * spacing) / 2) ** 2;
  }, 0);
  return grown > (bed.x - spacing) * (bed.y - spacing);
}
