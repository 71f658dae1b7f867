import { Matrix, solve } from 'ml-matrix';
import type { Vec2 } from '../solid/vector.ts';
import { demand, demandAbove0 } from './demand.ts';
import { nearestEdge } from './supportPolygon.ts';

/** A foot that gives way in proportion to its load and pushes only. */
export interface SpringFoot {
  /** mm. */
  readonly at: Readonly<Vec2>;
  /** N/mm, above 0. */
  readonly stiffness: number;
  /** How far it stands out below the machine without load, mm. */
  readonly height: number;
}

export interface SettledFeet {
  /** N, 0 for a foot that hangs. */
  readonly loads: readonly number[];
  /** Height of the machine above the desk at each foot, mm: the foot's own where it carries, more where it hangs. */
  readonly heights: readonly number[];
  /** Room between foot and desk, mm, 0 where it carries. */
  readonly gaps: readonly number[];
}

const AXES = [0, 1, 2] as const;

/** How a stiff machine settles on springy feet of any heights on a flat desk.
 *
 *  Least energy of springs that push only: convex in the height and the two slopes, quadratic for a given set of carrying feet;
 *  Newton steps, halved until the energy falls, end at the exact set. Slopes are small: height over distance of feet
 *  below about 0.1. For rubber take the stiffness near the expected load.
 *  Throws `RangeError` for a centre of gravity outside the feet, which would tip, and as `supportPolygon`.
 *  @example four feet of 50 N/mm at the corners of 300 x 200, the last 0.5 mm short, 40 N in the middle
 *  settleFeet(corners([6, 6, 6, 5.5]), [150, 100], 40).loads // => [16.25, 3.75, 16.25, 3.75] */
export function settleFeet(feet: readonly SpringFoot[], centre: Readonly<Vec2>, weight: number): SettledFeet {
  demand('feet', 'weight', weight, weight >= 0 && weight < Infinity, '0 N or above');
  for (const { stiffness, height } of feet) {
    demandAbove0('foot', { stiffness });
    demand('foot', 'height', height, Number.isFinite(height), 'that is a finite number of mm');
  }
  const places = feet.map((f) => f.at);
  const { inside } = nearestEdge(places, centre);
  demand('feet', 'centre of gravity', inside, inside >= -1e-9, '0 mm or more inside the outline of the feet');
  // Lengths over the reach of the feet keep the three unknowns of one size.
  const reach = Math.max(...places.map((p) => Math.hypot(p[0] - centre[0], p[1] - centre[1])));
  const rows = places.map((p) => [1, (p[0] - centre[0]) / reach, (p[1] - centre[1]) / reach]);
  const above = (pose: readonly number[]) =>
    rows.map((r, i) => r[0]! * pose[0]! + r[1]! * pose[1]! + r[2]! * pose[2]! - feet[i]!.height);
  const energy = (pose: readonly number[]) =>
    above(pose).reduce((sum, gap, i) => sum + (gap < 0 ? (feet[i]!.stiffness * gap * gap) / 2 : 0), 0) +
    weight * pose[0]!;
  const unbalanced = (pose: readonly number[]) => {
    const rest: [number, number, number] = [weight, 0, 0];
    for (const [i, gap] of above(pose).entries()) {
      if (gap < 0) for (const a of AXES) rest[a] += feet[i]!.stiffness * gap * rows[i]![a]!;
    }
    return rest;
  };
  const total = feet.reduce((sum, f) => sum + f.stiffness, 0);
  let pose: readonly number[] = [Math.min(...feet.map((f) => f.height)) - weight / total, 0, 0];
  for (let round = 0; round < 200; round++) {
    const rest = unbalanced(pose);
    const size = Math.hypot(...rest);
    if (size <= 1e-14 * weight) break;
    const curve = Matrix.zeros(3, 3);
    for (const [i, gap] of above(pose).entries()) {
      if (gap >= 0) continue;
      for (const a of AXES) {
        for (const b of AXES) {
          curve.set(a, b, curve.get(a, b) + feet[i]!.stiffness * rows[i]![a]! * rows[i]![b]!);
        }
      }
    }
    // Fewer than three carrying feet leave a direction without resistance.
    for (const a of AXES) curve.set(a, a, curve.get(a, a) + 1e-9 * total);
    const step = solve(curve, Matrix.columnVector(rest.map((s) => -s))).to1DArray();
    const moved = (share: number) => pose.map((v, a) => v + share * step[a]!);
    // Near the end the energy is flat to the last digit; the forces still tell better from worse.
    const before = energy(pose);
    let share = 1;
    if (Math.hypot(...unbalanced(moved(1))) > 0.01 * size) {
      while (share > 1e-12 && !(energy(moved(share)) < before)) share /= 2;
    }
    if (share <= 1e-12) break;
    pose = moved(share);
  }
  const gaps = above(pose);
  return {
    loads: gaps.map((gap, i) => Math.max(0, -gap) * feet[i]!.stiffness),
    heights: gaps.map((gap, i) => feet[i]!.height + gap),
    gaps: gaps.map((gap) => Math.max(0, gap)),
  };
}
