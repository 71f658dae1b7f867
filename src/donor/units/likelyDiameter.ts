import type { RoundFeature } from '../features/types.ts';
import { type LengthUnit, millimetresIn } from '../types.ts';
import { logLikelihood } from './roundness.ts';

/** The diameter a round was drawn with, and how its facets were laid to it. */
export interface LikelyDiameter {
  /** In the unit of the mesh. */
  readonly diameter: number;
  /** `corners`: the corners of the facets lie on the circle, as nearly every program does it. `flats`: the facets touch it, so that a shaft clears. */
  readonly laid: 'corners' | 'flats';
}

/** Even facets make both circles possible; uneven ones touch none. As a share of the diameter. */
const EVEN = 2e-4;
/** How often facets are laid to touch the circle; common practice, no source. */
const FLATS = 0.1;
/** Both diameters are good to this share. */
const OFF = 1e-5;

/** Which of the two circles of a round's facets was meant: the one whose diameter is the rounder in the unit, weighed against how rare it is
 *  to lay flats to a circle.
 *  @example likelyDiameter({ inscribed: 6, circumscribed: 6.029, diameter: 6.029, facets: 32 }, 'mm') // => { diameter: 6, laid: 'flats' } */
export function likelyDiameter(
  {
    inscribed,
    circumscribed,
    diameter,
    facets,
  }: Pick<RoundFeature, 'inscribed' | 'circumscribed' | 'diameter' | 'facets'>,
  unit: LengthUnit,
): LikelyDiameter {
  const even = Math.abs(inscribed / circumscribed - Math.cos(Math.PI / facets)) < EVEN;
  const weigh = (size: number): number => {
    const mm = size * millimetresIn[unit];
    return Math.max(logLikelihood([mm], 'metric', OFF * mm, 1), logLikelihood([mm], 'inch', OFF * mm, 1));
  };
  const flats = even && weigh(inscribed) + Math.log(FLATS) > weigh(diameter) + Math.log(1 - FLATS);
  return flats ? { diameter: inscribed, laid: 'flats' } : { diameter, laid: 'corners' };
}
