import type { Vec2 } from '../solid/vector.ts';
import { demand } from './demand.ts';

export type Triple<T> = readonly [T, T, T];

/** Share of a weight at `centre` that each of three feet carries; adds up to 1. A negative share: the machine tips off that
 *  foot. Balance of force and moments, so exact whatever the feet are made of. `null` for feet on one line.
 *  @example threeFeetShares([[0, 0], [10, 0], [0, 10]], [2, 3]) // => [0.5, 0.2, 0.3] */
export function threeFeetShares(
  feet: Triple<Readonly<Vec2>>,
  centre: Readonly<Vec2>,
): [number, number, number] | null {
  const [a, b, c] = feet;
  const twice = (p: Readonly<Vec2>, q: Readonly<Vec2>, r: Readonly<Vec2>) =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  const whole = twice(a, b, c);
  const longest = Math.max(
    Math.hypot(b[0] - a[0], b[1] - a[1]),
    Math.hypot(c[0] - b[0], c[1] - b[1]),
    Math.hypot(a[0] - c[0], a[1] - c[1]),
  );
  if (!(Math.abs(whole) > 1e-9 * longest * longest)) return null;
  return [twice(centre, b, c) / whole, twice(centre, c, a) / whole, twice(centre, a, b) / whole];
}

/** Load on each of three feet, N, from a weight of 0 or above, N. Exact: no other distribution is in balance.
 *
 *  Throws `RangeError` when the feet are on one line or `centre` lies outside them.
 *  @example threeFeetLoads([[0, 0], [10, 0], [0, 10]], [2, 3], 20) // => [10, 4, 6] */
export function threeFeetLoads(
  feet: Triple<Readonly<Vec2>>,
  centre: Readonly<Vec2>,
  weight: number,
): [number, number, number] {
  demand('three feet', 'weight', weight, weight >= 0 && weight < Infinity, '0 N or above');
  const shares = threeFeetShares(feet, centre);
  if (shares === null) throw new RangeError('three feet require positions that are not on one line');
  const least = Math.min(...shares);
  demand(
    'three feet',
    'share of every foot',
    least,
    least >= -1e-9,
    '0 or above, a centre of gravity between the feet',
  );
  const load = (share: number) => weight * Math.max(0, share);
  return [load(shares[0]), load(shares[1]), load(shares[2])];
}
