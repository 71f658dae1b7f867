import { type CrossSection, type Scope, withScope } from '../solid/kernel.ts';
import type { Contour, Vec2 } from '../solid/vector.ts';
import type { InnerRegion, Outline } from './innerRegions.ts';

/** How far walls move, mm a side, positive into the void. */
export interface WallMoves {
  readonly outer: number;
  /** For the walls of a hole or pocket of that hydraulic diameter, mm. */
  readonly inner: (diameter: number) => number;
}

/** Corners sharper than 60 degrees are blunted; flats move by the offset exactly whatever this is. */
export const MITRE_LIMIT = 2;
/** Bumps lower than this are rounding, not shape, mm: a fiftieth of the finest chord error. An offset leaves some
 *  corners doubled, 1e-8 mm apart; unless they are taken out they become triangles without area. */
export const RIPPLE = 1e-4;
/** How far a pocket is cut clear beyond the grown outline, mm. */
const CLEAR = 0.05;

/** A section whose walls have moved: outlines by `outer`, walls of holes and pockets by `inner`; `at` says where a
 *  drawn point lies before that (shrink). Owned by the scope; may be empty.
 *
 *  The outline is offset with its pockets bridged, then the voids, drawn in by their own offset, are cut out of it:
 *  so every flat moves by exactly one of the two. */
export function movedWalls(
  scope: Scope,
  outlines: readonly Outline[],
  { outer, inner }: WallMoves,
  at: (p: Vec2) => Vec2 = (p) => p,
): CrossSection {
  const { CrossSection } = scope.kernel;
  return withScope(scope.kernel, (passing) => {
    const offset = (contour: Contour, by: number): CrossSection => {
      const still = passing.keep(new CrossSection([contour]));
      return by === 0 ? still : passing.keep(still.offset(by, 'Miter', MITRE_LIMIT));
    };
    const bodies = outlines.map((outline) => {
      const body = offset(outline.outer.map(at), outer);
      const voids = outline.inner.map((region) => {
        const by = inner(region.diameter);
        return offset(voidOf(region, at, Math.max(0, outer) + Math.max(0, by) + CLEAR), -by);
      });
      return voids.length === 0 ? body : passing.keep(CrossSection.difference([body, ...voids]));
    });
    const [only, ...others] = bodies;
    if (only === undefined) return scope.keep(new CrossSection([]));
    const whole = others.length === 0 ? only : passing.keep(CrossSection.union(bodies));
    return scope.keep(whole.simplify(RIPPLE));
  });
}

/** The void as a closed contour; that of a pocket runs on straight out of its mouth by `beyond`. */
function voidOf({ wall, open }: InnerRegion, at: (p: Vec2) => Vec2, beyond: number): Contour {
  const moved = wall.map(at);
  if (!open) return moved;
  const [a, b] = [moved[0]!, moved.at(-1)!];
  const chord = Math.hypot(a[0] - b[0], a[1] - b[1]);
  // The void lies to the left of the chord from b to a, the outside to its right.
  const out: Vec2 = [((a[1] - b[1]) / chord) * beyond, (-(a[0] - b[0]) / chord) * beyond];
  return [...moved, [b[0] + out[0], b[1] + out[1]], [a[0] + out[0], a[1] + out[1]]];
}
