import type { Vec3 } from '../solid/vector.ts';

/** Lowest and highest corner of the box around all vertices, three numbers each; low above high where there are none. */
export function boxOf(positions: Float64Array): { low: Vec3; high: Vec3 } {
  const low: Vec3 = [Infinity, Infinity, Infinity];
  const high: Vec3 = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3)
    for (let k = 0; k < 3; k++) {
      const value = positions[i + k]!;
      if (value < low[k]!) low[k] = value;
      if (value > high[k]!) high[k] = value;
    }
  return { low, high };
}

/** Diagonal of that box, 0 where there are no vertices: what tolerances are taken relative to. */
export function boxDiagonal(positions: Float64Array): number {
  if (positions.length === 0) return 0;
  const { low, high } = boxOf(positions);
  return Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
}
