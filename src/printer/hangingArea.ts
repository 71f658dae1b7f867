import { type CrossSection, type Scope, withScope } from '../solid/kernel.ts';
import { MITRE_LIMIT, RIPPLE } from './movedWalls.ts';

/** Area below which a piece is rounding, mm^2. */
const SPECK = 1e-3;
/** A step as wide as the printable overhang allows still prints clean, whatever its width rounds to, mm. */
const SLACK = 2e-3;
/** What hangs takes along what lies beside it, back to the wall that holds it: this much further than the overhang
 *  reaches, so that nothing narrower than a line is left standing in the corner. */
const ALONG = 1.25;

/** The part of a layer that hangs, or null when all of it is held. `above` and `below` are the sections of the layer and
 *  of the one it is laid on; `reach` is how far one may stand out over the other and print clean, mm.
 *
 *  Two kinds of area hang: what lies further than `reach` from all material below, and the roof over a gap, however
 *  narrow, that is closed from wall to wall in this one layer. The area reaches back over the walls that hold it: a
 *  caller takes away what is `below`. Owned by the scope.
 *  @example the roof over a slot 3 mm wide, reach 0.2 mm: the whole 3 mm, and 0.05 mm of each wall */
export function hangingArea(
  scope: Scope,
  above: CrossSection,
  below: CrossSection,
  reach: number,
): CrossSection | null {
  const { kernel } = scope;
  return withScope(kernel, (passing) => {
    const fresh = passing.keep(above.subtract(below));
    if (fresh.area() < SPECK) return null;
    const held = passing.keep(below.offset(reach + SLACK, 'Miter', MITRE_LIMIT));
    const unheld = passing.keep(passing.keep(fresh.subtract(held)).simplify(RIPPLE));
    const roofs = closedGaps(passing, held, above, below, reach);
    const zones = [...roofs];
    if (unheld.area() >= SPECK)
      zones.push(passing.keep(unheld.offset(ALONG * (reach + SLACK), 'Miter', MITRE_LIMIT)));
    if (zones.length === 0) return null;
    const zone = zones.length === 1 ? zones[0]! : passing.keep(kernel.CrossSection.union(zones));
    return scope.keep(above.intersect(zone));
  });
}

/** Gaps in the section below, narrower than twice the reach, that the one above closes, with a rim of their walls. */
function closedGaps(
  scope: Scope,
  held: CrossSection,
  above: CrossSection,
  below: CrossSection,
  reach: number,
): CrossSection[] {
  const closed = scope.keep(held.offset(-(reach + SLACK), 'Miter', MITRE_LIMIT));
  const gaps = scope.keep(closed.subtract(below));
  if (gaps.area() < SPECK) return [];
  return scope
    .keepAll(gaps.decompose())
    .filter((gap) => gap.area() >= SPECK && scope.keep(gap.subtract(above)).area() < SPECK)
    .map((gap) => scope.keep(gap.offset((ALONG - 1) * reach, 'Miter', MITRE_LIMIT)));
}
