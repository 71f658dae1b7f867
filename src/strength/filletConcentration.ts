import { demand, demandAbove0 } from './demand.ts';

/** Radius that a printed inner corner has when it is drawn sharp, mm: half of the usual line width; common practice, no source. */
export const PRINTED_CORNER = 0.2;

/** Peak over nominal bending strain where an arm of `thickness` runs into a broad wall by a fillet of `radius`, mm.
 *
 *  K = 0.95 (h/r)^(1/3), at least 1.15. The form is the fit to Peterson's chart of a stepped flat bar in bending, three times as broad beyond the
 *  step, 0.9072 (h/r)^(1/3) (R. L. Norton, Machine Design, appendix on stress concentration; from memory). It is raised by 5 % and kept above
 *  1.15 to meet the plane finite elements of this project, r/h 0.1 to 1: tests/outside/springArm. A sharp corner counts as printed,
 *  0.2 mm. Throws `RangeError` for sizes out of range.
 *  @example filletConcentration(0.4, 2) // => 1.624 */
export function filletConcentration(radius: number, thickness: number): number {
  demandAbove0('fillet', { thickness });
  demand('fillet', 'radius', radius, radius >= 0 && radius < Infinity, '0 mm or above');
  return Math.max(1.15, 0.95 * Math.cbrt(thickness / Math.max(radius, PRINTED_CORNER)));
}
