import { combine } from './budget.ts';
import type { Dimension } from './types.ts';

/** The dimension as it may be expected after `extra` more readings of the same pooled spread: same value,
 *  type A smaller by sqrt(n / (n + extra)) with `extra` more degrees of freedom, everything else as it is
 *  (JCGM 100:2008, 4.2.3). A forecast for advice, never a result. An entered value does not change.
 *  `extra` a whole number, 0 or above; otherwise throws a RangeError.
 *  @example withMoreReadings(bar, 3).n // => bar.n + 3 */
export function withMoreReadings(dimension: Dimension, extra: number): Dimension {
  if (!Number.isInteger(extra) || extra < 0) {
    throw new RangeError(`${dimension.name} requires a whole number of more readings (given ${extra})`);
  }
  const reading = `reading:${dimension.id}`;
  if (!dimension.contributors.some(({ id }) => id === reading)) return dimension;
  const n = dimension.n + extra;
  const smaller = Math.sqrt(dimension.n / n);
  const contributors = dimension.contributors.map((contributor) => {
    if (contributor.id !== reading) return contributor;
    const { u, dof, deviation } = contributor;
    return {
      ...contributor,
      ...{ u: u * smaller, dof: dof + extra },
      ...(deviation !== undefined && { deviation: deviation * smaller }),
    };
  });
  return { ...dimension, ...combine(contributors), n, contributors };
}
