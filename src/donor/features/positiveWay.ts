import { times, type Vec3 } from '../../solid/vector.ts';

/** A direction or its opposite, whichever has its largest component above 0; of equal ones the first counts.
 *  @example positiveWay([0, -1, 0]) // => [0, 1, 0] */
export function positiveWay(direction: Vec3): Vec3 {
  const largest = direction.reduce((best, a) => (Math.abs(a) > Math.abs(best) + 1e-9 ? a : best), 0);
  // Adding 0 turns -0 into 0, which JSON and people prefer.
  return (largest < 0 ? times(direction, -1) : direction).map((a) => a + 0) as Vec3;
}
