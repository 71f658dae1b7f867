/** A round surface without ends; any unit of length. */
export interface Cylinder {
  /** Unit direction of the axis. */
  readonly ax: number;
  readonly ay: number;
  readonly az: number;
  /** A point on the axis. */
  readonly cx: number;
  readonly cy: number;
  readonly cz: number;
  readonly radius: number;
}

const STEPS = 6;
const UNKNOWNS = 5;

/** Least-squares cylinder through points (x, y, z one after the other), from a start near enough: Gauss and Newton's steps on the
 *  distances from the axis, damped so that what few points do not tell stays as it was. Undefined where it runs away.
 *  Any unit; the point on the axis ends up amid the points. */
export function fitCylinder(points: Float64Array, start: Cylinder): Cylinder | undefined {
  const n = points.length / 3;
  let { ax, ay, az, radius } = start;
  let along = 0;
  for (let i = 0; i < n; i++)
    along +=
      (points[3 * i]! - start.cx) * ax +
      (points[3 * i + 1]! - start.cy) * ay +
      (points[3 * i + 2]! - start.cz) * az;
  along /= n;
  let [cx, cy, cz] = [start.cx + along * ax, start.cy + along * ay, start.cz + along * az];
  for (let step = 0; step < STEPS; step++) {
    const [ux, uy, uz] = across(ax, ay, az);
    const wx = ay * uz - az * uy;
    const wy = az * ux - ax * uz;
    const wz = ax * uy - ay * ux;
    // Sums of the normal equations in variables of their own: this runs for every seed of a fine mesh, and an array of
    // them takes four times as long.
    let [s00, s01, s02, s03, s04, b0] = [0, 0, 0, 0, 0, 0];
    let [s11, s12, s13, s14, b1] = [0, 0, 0, 0, 0];
    let [s22, s23, s24, b2, s33, s34, b3, s44, b4] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
    for (let i = 0; i < points.length; i += 3) {
      const dx = points[i]! - cx;
      const dy = points[i + 1]! - cy;
      const dz = points[i + 2]! - cz;
      const u = dx * ux + dy * uy + dz * uz;
      const w = dx * wx + dy * wy + dz * wz;
      const t = dx * ax + dy * ay + dz * az;
      const rho = Math.sqrt(u * u + w * w);
      if (rho === 0) continue;
      // Tilts are reckoned in radii, so that all unknowns are lengths of the same kind; the fifth, the radius, counts 1.
      const r0 = u / rho;
      const r1 = w / rho;
      const r2 = (t * u) / rho / radius;
      const r3 = (t * w) / rho / radius;
      const off = rho - radius;
      s00 += r0 * r0;
      s01 += r0 * r1;
      s02 += r0 * r2;
      s03 += r0 * r3;
      s04 += r0;
      b0 += r0 * off;
      s11 += r1 * r1;
      s12 += r1 * r2;
      s13 += r1 * r3;
      s14 += r1;
      b1 += r1 * off;
      s22 += r2 * r2;
      s23 += r2 * r3;
      s24 += r2;
      b2 += r2 * off;
      s33 += r3 * r3;
      s34 += r3;
      b3 += r3 * off;
      s44 += 1;
      b4 += off;
    }
    normal.set([s00, s01, s02, s03, s04, b0], 0);
    normal.set([s11, s12, s13, s14, b1], 7);
    normal.set([s22, s23, s24, b2], 14);
    normal.set([s33, s34, b3], 21);
    normal.set([s44, b4], 28);
    if (!solved(1e-9 * n)) return undefined;
    const mu = x[0]!;
    const mw = x[1]!;
    const tu = x[2]!;
    const tw = x[3]!;
    const grow = x[4]!;
    cx += mu * ux + mw * wx;
    cy += mu * uy + mw * wy;
    cz += mu * uz + mw * wz;
    const su = tu / radius;
    const sw = tw / radius;
    ax += su * ux + sw * wx;
    ay += su * uy + sw * wy;
    az += su * uz + sw * wz;
    const length = Math.sqrt(ax * ax + ay * ay + az * az);
    ax /= length;
    ay /= length;
    az /= length;
    radius += grow;
    if (!(radius > 0) || !Number.isFinite(radius + cx + cy + cz + ax)) return undefined;
    if (Math.abs(mu) + Math.abs(mw) + Math.abs(tu) + Math.abs(tw) + Math.abs(grow) < 1e-11 * radius) break;
  }
  return { ax, ay, az, cx, cy, cz, radius };
}

/** A unit vector across a unit vector. */
export function across(ax: number, ay: number, az: number): [number, number, number] {
  // Against the smallest component, so that the cross product is never short.
  const [x, y, z] = [Math.abs(ax), Math.abs(ay), Math.abs(az)];
  const raw: [number, number, number] =
    x <= y && x <= z ? [0, az, -ay] : y <= z ? [-az, 0, ax] : [ay, -ax, 0];
  const length = Math.hypot(raw[0], raw[1], raw[2]);
  return [raw[0] / length, raw[1] / length, raw[2] / length];
}

/** Scratch of one fit at a time: normal equations in rows of six with the right side last, their factor, the solution. */
const normal = new Float64Array(UNKNOWNS * (UNKNOWNS + 1));
const low = new Float64Array(UNKNOWNS * UNKNOWNS);
const x = new Float64Array(UNKNOWNS);

/** Cholesky's way through the damped normal equations; the answer is left in `x`. False where there is none. */
function solved(damping: number): boolean {
  for (let j = 0; j < UNKNOWNS; j++) {
    for (let k = 0; k <= j; k++) {
      let sum = normal[6 * k + j]! + (j === k ? damping : 0);
      for (let m = 0; m < k; m++) sum -= low[5 * j + m]! * low[5 * k + m]!;
      if (k === j) {
        if (!(sum > 0)) return false;
        low[6 * j] = Math.sqrt(sum);
      } else low[5 * j + k] = sum / low[6 * k]!;
    }
  }
  for (let j = 0; j < UNKNOWNS; j++) {
    let sum = normal[6 * j + 5]!;
    for (let m = 0; m < j; m++) sum -= low[5 * j + m]! * x[m]!;
    x[j] = sum / low[6 * j]!;
  }
  for (let j = UNKNOWNS - 1; j >= 0; j--) {
    let sum = x[j]!;
    for (let m = j + 1; m < UNKNOWNS; m++) sum -= low[5 * m + j]! * x[m]!;
    x[j] = sum / low[6 * j]!;
  }
  return true;
}
