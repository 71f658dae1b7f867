/** Largest distance between a facet and the true circle, mm. Surfaces that meet the machine are held four times
 *  finer than the rest: 0.005 mm is a twentieth of the narrowest fit window. */
export const chordError = { interface: 0.005, plain: 0.02 } as const;
export type Surface = keyof typeof chordError;

/** Number of facets of a circle of `diameter` mm so that no facet is further than `error` mm from it.
 *  A multiple of four, so that the extremes along both axes are vertices (or, turned by half a facet, flats);
 *  12 to 512. Sagitta s = r (1 - cos(pi / n)).
 *  @example facets(5, 0.005) // => 52 */
export function facets(diameter: number, error: number): number {
  const ratio = Math.min(1, (2 * error) / diameter);
  const exact = Math.PI / Math.acos(1 - ratio);
  return Math.min(512, Math.max(12, 4 * Math.ceil(exact / 4)));
}

/** Radius of the vertices of an n-gon whose flats touch a circle of radius `r`: a shaft of that radius passes. */
export const circumscribed = (r: number, n: number): number => r / Math.cos(Math.PI / n);
