import { type Manifold, type Scope, withScope } from '../solid/kernel.ts';
import { MITRE_LIMIT, RIPPLE } from './movedWalls.ts';
import type { PrinterProfile } from './types.ts';

/** A drawn solid with its first layer drawn in, or why it was left alone. */
export interface BedRelief {
  /** Owned by the scope; the solid given when it was not relieved. */
  readonly solid: Manifold;
  readonly relieved: boolean;
  /** Why not; absent when relieved. */
  readonly reason?: string;
}

/** Least share of the first layer's area that must be left to stand on. */
const LEAST_LEFT = 0.5;
/** How far the collar that is cut away reaches beyond the part, mm. */
const BEYOND = 1;

/** Draws the first layer in by the expected `firstLayerSpread` a side, so that it prints flush with the layers
 *  above it. `solid` lies on the bed, lowest point at z = 0; mm.
 *
 *  The section at half the first layer's height is offset inwards and everything outside of it is cut away up to
 *  `firstLayer`: one difference, so the step is where one surface was cut and not where two were glued. A wall that
 *  slopes there keeps its slope. Walls of small bores end up to c/D - c/(D + 2 spread) from flush, because the
 *  bore drawn wider in the first layer loses that much less.
 *
 *  Left alone, with the reason, when the spread is 0, or when drawing in would lose more than half of the first
 *  layer or change its outlines: a foot too narrow for it would vanish and leave the part standing on air. */
export function bedRelief(scope: Scope, solid: Manifold, profile: PrinterProfile): BedRelief {
  const spread = profile.firstLayerSpread.value;
  if (!(spread > 0)) return { solid, relieved: false, reason: 'the first layer does not spread' };
  const { kernel } = scope;
  return withScope(kernel, (passing) => {
    const section = passing.keep(solid.slice(profile.firstLayer / 2));
    const drawnIn = passing.keep(
      passing.keep(section.offset(-spread, 'Miter', MITRE_LIMIT)).simplify(RIPPLE),
    );
    const left = drawnIn.area() / section.area();
    // Written so that an empty first layer (0 / 0) is left alone as well.
    if (!(left >= LEAST_LEFT)) {
      const share = Number.isNaN(left) ? 0 : Math.round(100 * left);
      const reason = `drawn in by ${spread} mm a side, ${share} % of the first layer would be left (at least ${100 * LEAST_LEFT} %)`;
      return { solid, relieved: false, reason };
    }
    const split = `drawn in by ${spread} mm a side, the first layer would break up or close a gap`;
    if (drawnIn.numContour() !== section.numContour()) return { solid, relieved: false, reason: split };
    const { min, max } = section.bounds();
    const around = passing.keep(
      kernel.CrossSection.square([max[0] - min[0] + 2 * BEYOND, max[1] - min[1] + 2 * BEYOND]),
    );
    const ring = passing.keep(
      passing.keep(around.translate(min[0] - BEYOND, min[1] - BEYOND)).subtract(drawnIn),
    );
    const collar = passing.keep(
      passing.keep(ring.extrude(profile.firstLayer + BEYOND)).translate(0, 0, -BEYOND),
    );
    const cut = scope.keep(solid.subtract(collar));
    // A body that came apart counts one handle less, a wall that was cut through one less or more.
    const sound = cut.status() === 'NoError' && cut.genus() === solid.genus();
    return sound ? { solid: cut, relieved: true } : { solid, relieved: false, reason: split };
  });
}
