import { across, type Cylinder } from './fitCylinder.ts';
import { roundness } from './growWall.ts';
import type { Surface } from './surfaceOf.ts';
import { turnCovered } from './turnCovered.ts';

/** What is across the rim at one end of a round wall. */
export interface WallEnd {
  /** Share of the rim at which the surface turns sharply; the rest runs on smoothly. */
  readonly sharp: number;
  /** Share of the rim beyond which the surface goes towards the axis. */
  readonly narrowing: number;
  /** Mean length along the axis of the triangles beyond smooth stretches of the rim. */
  readonly next: number;
}

/** A round wall with its sizes; lengths in the unit of the mesh. */
export interface WallMeasures {
  /** Ends of the wall, measured along the axis from the cylinder's point. */
  readonly from: number;
  readonly to: number;
  /** Smallest and largest distance of the facets from the axis. */
  readonly inner: number;
  readonly outer: number;
  /** Root mean square of what the edges between facets are off the round. */
  readonly scatter: number;
  /** In turns, 0 to 1. */
  readonly covered: number;
  readonly gap: number;
  /** Facets around, as far as the wall goes. */
  readonly facets: number;
  /** Widest facet, in turns. */
  readonly widest: number;
  /** Mean length along the axis: area over width. */
  readonly length: number;
  /** Mean lean of the facets towards the far end, radians: a taper. */
  readonly taper: number;
  /** Radius over the radius of the profile along the axis: 0 for a cylinder, 1 for the belt of a sphere. */
  readonly barrel: number;
  readonly ends: readonly [WallEnd, WallEnd];
}

/** Turns at a rim below this are smooth, radians. */
const SMOOTH = 0.45;

/** Measures the wall made of the given triangles around a cylinder. `mark` is scratch, one a triangle, below `stamp`. */
export function measureWall(
  surface: Surface,
  c: Cylinder,
  wall: Int32Array,
  mark: Int32Array,
  stamp: number,
): WallMeasures {
  const { mesh, mates, bends, flat, normals, areas } = surface;
  const { positions: p, triangles } = mesh;
  const [ux, uy, uz] = across(c.ax, c.ay, c.az);
  const [wx, wy, wz] = [c.ay * uz - c.az * uy, c.az * ux - c.ax * uz, c.ax * uy - c.ay * ux];
  for (const t of wall) mark[t] = stamp;
  const near = 1e-3 * c.radius;

  let [from, to, inner, outer] = [Infinity, -Infinity, Infinity, 0];
  let [squares, points] = [0, 0];
  const stretches: number[] = [];
  const creases: number[] = [];
  let [area, taper, sz, szz, szn] = [0, 0, 0, 0, 0];
  const [xs, ys, zs] = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  // Rim of each end: length, sharp, narrowing, length weighted by what lies beyond, and smooth length.
  const rims = [new Float64Array(5), new Float64Array(5)] as const;

  const local = (v: number): [number, number, number] => {
    const [x, y, z] = [p[3 * v]! - c.cx, p[3 * v + 1]! - c.cy, p[3 * v + 2]! - c.cz];
    return [x * ux + y * uy + z * uz, x * wx + y * wy + z * wz, x * c.ax + y * c.ay + z * c.az];
  };

  for (const t of wall) {
    for (let k = 0; k < 3; k++) {
      const v = triangles[3 * t + k]!;
      const [x, y, z] = local(v);
      xs[k] = x;
      ys[k] = y;
      zs[k] = z;
      from = Math.min(from, z);
      to = Math.max(to, z);
      const rho = Math.sqrt(x * x + y * y);
      outer = Math.max(outer, rho);
    }
    const start = Math.atan2(ys[0]!, xs[0]!);
    let [low, high] = [0, 0];
    for (let k = 1; k < 3; k++) {
      let turn = Math.atan2(ys[k]!, xs[k]!) - start;
      if (turn > Math.PI) turn -= 2 * Math.PI;
      if (turn < -Math.PI) turn += 2 * Math.PI;
      low = Math.min(low, turn);
      high = Math.max(high, turn);
    }
    if (high - low > 1e-9) stretches.push(start + low, start + high);
    for (let k = 0; k < 3; k++) {
      const j = (k + 1) % 3;
      inner = Math.min(inner, fromOrigin(xs[k]!, ys[k]!, xs[j]!, ys[j]!));
      const h = 3 * t + k;
      const mate = mates[h]!;
      const beyond = mate === -1 ? -1 : Math.floor(mate / 3);
      if (beyond !== -1 && mark[beyond] === stamp) {
        const runsAlong = Math.hypot(xs[k]! - xs[j]!, ys[k]! - ys[j]!) < near;
        if (runsAlong && !flat[h]) {
          creases.push(Math.atan2(ys[k]! + ys[j]!, xs[k]! + xs[j]!));
          squares += (Math.hypot(xs[k]!, ys[k]!) - c.radius) ** 2;
          points++;
        }
        continue;
      }
      const length = Math.hypot(xs[k]! - xs[j]!, ys[k]! - ys[j]!);
      const rest = (zs[k]! + zs[j]!) / 2 - zs[(k + 2) % 3]!;
      // A triangle that stands on a rim edge has its third corner on the wall's side of it.
      const rim = rims[rest > 0 ? 1 : 0];
      rim[0]! += length;
      if (beyond === -1) {
        rim[1]! += length;
        continue;
      }
      const [x, y, z] = local(triangles[3 * beyond + ((mate + 2) % 3)]!);
      const [mx, my] = [(xs[k]! + xs[j]!) / 2, (ys[k]! + ys[j]!) / 2];
      // By the side of the chord: a floor's corner triangle has all three corners on the rim.
      if ((x - mx) * mx + (y - my) * my < 0) rim[2]! += length;
      if (Math.abs(bends[h]!) > SMOOTH) rim[1]! += length;
      else {
        rim[3]! += length * Math.abs(z - (zs[k]! + zs[j]!) / 2);
        rim[4]! += length;
      }
    }
    const lean = normals[3 * t]! * c.ax + normals[3 * t + 1]! * c.ay + normals[3 * t + 2]! * c.az;
    const z = (zs[0]! + zs[1]! + zs[2]!) / 3;
    const a = areas[t]!;
    area += a;
    taper += a * lean;
    sz += a * z;
    szz += a * z * z;
    szn += a * z * lean;
  }
  const lever = szz - (sz * sz) / area;
  const least = roundness(surface, c.radius) ** 2;
  const { covered, gap } = turnCovered(stretches);
  const { count, widest } = facetsOf(creases, gap);
  const ends = rims.map(([all, sharp, narrow, next, smooth]) => ({
    sharp: all! > 0 ? sharp! / all! : 1,
    narrowing: all! > 0 ? narrow! / all! : 0,
    next: smooth! > 0 ? next! / smooth! : 0,
  })) as [WallEnd, WallEnd];
  return {
    from,
    to,
    inner,
    outer: Math.max(outer, inner),
    scatter: Math.sqrt(squares / Math.max(1, points)),
    covered,
    gap,
    facets: count,
    widest,
    length: area / (2 * Math.PI * Math.max(1e-3, covered) * c.radius),
    taper: Math.abs(taper / area),
    barrel: lever > least * area ? (Math.abs(szn - (sz * taper) / area) / lever) * c.radius : 0,
    ends,
  };
}

/** Facets between creases at the given angles, and the widest of them in turns. */
function facetsOf(creases: number[], gap: number): { count: number; widest: number } {
  creases.sort((a, b) => a - b);
  const distinct: number[] = [];
  for (const angle of creases)
    if (distinct.length === 0 || angle - distinct.at(-1)! > 1e-3) distinct.push(angle);
  const [first, last] = [distinct[0], distinct.at(-1)];
  if (first === undefined || last === undefined) return { count: 1, widest: 1 };
  if (distinct.length > 1 && first + 2 * Math.PI - last <= 1e-3) distinct.pop();
  const steps = distinct.map((angle, i) =>
    i === 0 ? angle - distinct.at(-1)! + 2 * Math.PI : angle - distinct[i - 1]!,
  );
  if (gap === 0) return { count: distinct.length, widest: Math.max(...steps) / (2 * Math.PI) };
  const inside = steps.sort((a, b) => b - a).slice(1);
  return { count: distinct.length + 1, widest: Math.max(0, ...inside) / (2 * Math.PI) };
}

/** Distance of the origin from the segment between two points of the plane. */
function fromOrigin(ax: number, ay: number, bx: number, by: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / square));
  return Math.hypot(ax + share * dx, ay + share * dy);
}
