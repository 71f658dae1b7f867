import type { Cylinder } from './fitCylinder.ts';

/** Whether points around an axis (x, y, z one after the other) all lie in one direction from it, as the first does: to an
 *  angle whose cosine is `near`. Any unit; without a point they do.
 *  @example liesOneWay(Float64Array.of(1, 0, 0, 1, 1, 5), alongZ, Math.cos(Math.PI / 3)) // => true, 45 degrees apart */
export function liesOneWay(points: Float64Array, c: Cylinder, near: number): boolean {
  let [ux, uy, uz, first] = [0, 0, 0, 0];
  for (let i = 0; i < points.length; i += 3) {
    const dx = points[i]! - c.cx;
    const dy = points[i + 1]! - c.cy;
    const dz = points[i + 2]! - c.cz;
    const s = dx * c.ax + dy * c.ay + dz * c.az;
    const x = dx - s * c.ax;
    const y = dy - s * c.ay;
    const z = dz - s * c.az;
    const rho = Math.sqrt(x * x + y * y + z * z);
    if (i === 0) [ux, uy, uz, first] = [x, y, z, rho];
    else if (x * ux + y * uy + z * uz < near * rho * first) return false;
  }
  return true;
}
