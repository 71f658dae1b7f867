import { add, dot, subtract, times, type Vec3 } from './vector.ts';

/** Point of a triangle nearest to `p` (C. Ericson, Real-Time Collision Detection, 2005, 5.1.5; from memory); mm.
 *  @example nearestOnTriangle([[0, 0, 0], [1, 0, 0], [0, 1, 0]], [2, 0, 1]) // => [1, 0, 0] */
export function nearestOnTriangle([a, b, c]: readonly [Vec3, Vec3, Vec3], p: Readonly<Vec3>): Vec3 {
  const [ab, ac, ap] = [subtract(b, a), subtract(c, a), subtract(p, a)];
  const [d1, d2] = [dot(ab, ap), dot(ac, ap)];
  if (d1 <= 0 && d2 <= 0) return a;
  const bp = subtract(p, b);
  const [d3, d4] = [dot(ab, bp), dot(ac, bp)];
  if (d3 >= 0 && d4 <= d3) return b;
  const vc = d1 * d4 - d3 * d2;
  if (vc <= 0 && d1 >= 0 && d3 <= 0) return add(a, times(ab, d1 / (d1 - d3)));
  const cp = subtract(p, c);
  const [d5, d6] = [dot(ab, cp), dot(ac, cp)];
  if (d6 >= 0 && d5 <= d6) return c;
  const vb = d5 * d2 - d1 * d6;
  if (vb <= 0 && d2 >= 0 && d6 <= 0) return add(a, times(ac, d2 / (d2 - d6)));
  const va = d3 * d6 - d5 * d4;
  if (va <= 0 && d4 >= d3 && d5 >= d6)
    return add(b, times(subtract(c, b), (d4 - d3) / (d4 - d3 + (d5 - d6))));
  const sum = va + vb + vc;
  return add(a, add(times(ab, vb / sum), times(ac, vc / sum)));
}
