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
  const normal = new Float64Array(UNKNOWNS * (UNKNOWNS + 1));
  const row = new Float64Array(UNKNOWNS);
  for (let step = 0; step < STEPS; step++) {
    const [ux, uy, uz] = across(ax, ay, az);
    const [wx, wy, wz] = [ay * uz - az * uy, az * ux - ax * uz, ax * uy - ay * ux];
    normal.fill(0);
    for (let i = 0; i < n; i++) {
      const [dx, dy, dz] = [points[3 * i]! - cx, points[3 * i + 1]! - cy, points[3 * i + 2]! - cz];
      const [u, w, t] = [
        dx * ux + dy * uy + dz * uz,
        dx * wx + dy * wy + dz * wz,
        dx * ax + dy * ay + dz * az,
      ];
      const rho = Math.sqrt(u * u + w * w);
      if (rho === 0) continue;
      // Tilts are reckoned in radii, so that all unknowns are lengths of the same kind.
      row[0] = u / rho;
      row[1] = w / rho;
      row[2] = (t * u) / rho / radius;
      row[3] = (t * w) / rho / radius;
      row[4] = 1;
      const off = rho - radius;
      for (let j = 0; j < UNKNOWNS; j++) {
        for (let k = j; k < UNKNOWNS; k++) normal[6 * j + k]! += row[j]! * row[k]!;
        normal[6 * j + 5]! += row[j]! * off;
      }
    }
    const moved = solved(normal, 1e-9 * n);
    if (moved === undefined) return undefined;
    const [mu, mw, tu, tw, grow] = moved as [number, number, number, number, number];
    cx += mu * ux + mw * wx;
    cy += mu * uy + mw * wy;
    cz += mu * uz + mw * wz;
    const [su, sw] = [tu / radius, tw / radius];
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
  const length = Math.hypot(...raw);
  return [raw[0] / length, raw[1] / length, raw[2] / length];
}

/** Cholesky's way through the damped normal equations; upper half and right side in rows of six. */
function solved(normal: Float64Array, damping: number): number[] | undefined {
  const low: number[][] = [];
  for (let j = 0; j < UNKNOWNS; j++) {
    const line: number[] = [];
    for (let k = 0; k <= j; k++) {
      let sum = normal[6 * k + j]! + (j === k ? damping : 0);
      for (let m = 0; m < k; m++) sum -= line[m]! * (k === j ? line[m]! : low[k]![m]!);
      if (k === j) {
        if (!(sum > 0)) return undefined;
        line.push(Math.sqrt(sum));
      } else line.push(sum / low[k]![k]!);
    }
    low.push(line);
  }
  const x: number[] = [];
  for (let j = 0; j < UNKNOWNS; j++) {
    let sum = normal[6 * j + 5]!;
    for (let m = 0; m < j; m++) sum -= low[j]![m]! * x[m]!;
    x.push(sum / low[j]![j]!);
  }
  for (let j = UNKNOWNS - 1; j >= 0; j--) {
    let sum = x[j]!;
    for (let m = j + 1; m < UNKNOWNS; m++) sum -= low[m]![j]! * x[m]!;
    x[j] = sum / low[j]![j]!;
  }
  return x;
}
