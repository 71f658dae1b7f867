// Solves the arms with gmsh and CalculiX and records what they say. See README.md.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { type Arm, arms, type Line, posed } from './arms.ts';
import type { Recorded } from './recorded.ts';
import { type Point, type Solved, solve } from './solver.ts';

/** Element sizes over the first: refined until give and strain change by less than 2 %. */
const FINENESS = [1, 0.7, 0.5, 0.35];
const CONVERGED = 0.02;

/** Nominal bending strain at the root: strain along the arm is read on a face between `near` thicknesses from the root and from
 *  the load, where the arm is a beam, and carried on to the root by the straight line that fits it. */
function nominal({ strains }: Solved, { from, way, length, within }: Line, thickness: number): number {
  const near = Math.min(0.9 * thickness, length / 4);
  const [low, high] = [near, length - near];
  const points = strains.flatMap(({ at, strain }) => {
    const d = [at[0] - from[0], at[1] - from[1], at[2] - from[2]] as Point;
    const s = d[0] * way[0] + d[1] * way[1] + d[2] * way[2];
    const off = Math.hypot(d[0] - s * way[0], d[1] - s * way[1], d[2] - s * way[2]);
    return off < within && s > low && s < high ? [[s, along(strain, way)] as const] : [];
  });
  if (points.length < 3) throw new Error(`only ${points.length} nodes on the face`);
  const n = points.length;
  const [ms, me] = [points.reduce((a, [s]) => a + s, 0) / n, points.reduce((a, [, e]) => a + e, 0) / n];
  const slope =
    points.reduce((a, [s, e]) => a + (s - ms) * (e - me), 0) /
    points.reduce((a, [s]) => a + (s - ms) ** 2, 0);
  return me - slope * ms;
}

/** Strain in a direction: n E n with tensor shear, which CalculiX writes. */
function along([xx, yy, zz, xy, yz, zx]: readonly number[], [x, y, z]: Point): number {
  return xx! * x * x + yy! * y * y + zz! * z * z + 2 * (xy! * x * y + yz! * y * z + zx! * z * x);
}

/** Largest tensile principal strain: at the fillet of a straight arm, on a curved one away from its ends. */
function peak({ strains }: Solved, arm: Arm): number | undefined {
  if (arm.kind !== 'plane' && arm.kind !== 'curved') return undefined;
  let most = 0;
  for (const { at, strain } of strains) {
    if (arm.kind === 'curved' && at[1] < arm.outer - arm.inner) continue;
    if (
      arm.kind === 'plane' &&
      (at[1] > arm.length / 2 || at[1] < -arm.thickness / 2 || at[0] < arm.thickness / 2)
    )
      continue;
    const [xx, yy, , xy] = strain as [number, number, number, number];
    most = Math.max(most, (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy));
  }
  return most;
}

function record(arm: Arm): Recorded {
  let before: Recorded | undefined;
  for (const fineness of FINENESS) {
    const { body, line, inner, thickness } = posed(arm, fineness);
    const solved = solve(body);
    const most = peak(solved, arm);
    // A curved arm has no root to carry a strain to.
    const strain = arm.kind === 'curved' ? most! : nominal(solved, line, thickness);
    const now = {
      arm,
      nodes: solved.nodes,
      change: 0,
      give: round(solved.give),
      strain: round(strain),
      ...(inner && { inner: round(-nominal(solved, inner, thickness)) }),
      ...(most !== undefined && { peak: round(most) }),
    };
    const change = before
      ? Math.max(
          Math.abs(now.give / before.give - 1),
          Math.abs(now.strain / before.strain - 1),
          now.peak ? Math.abs(now.peak / before.peak! - 1) : 0,
        )
      : 1;
    console.error(
      arm.name,
      fineness,
      solved.nodes,
      now.give,
      now.strain,
      now.inner ?? '',
      now.peak ?? '',
      change.toFixed(4),
    );
    before = { ...now, change: Number(change.toPrecision(2)) };
    if (change < CONVERGED) break;
  }
  return before!;
}

const round = (value: number): number => Number(value.toPrecision(5));

const path = process.argv[2] ?? 'tests/outside/armElements/fixtures/recorded.json';
const known: Recorded[] = existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as Recorded[]) : [];
const records: Recorded[] = [];
for (const arm of arms) {
  const same = known.find((one) => JSON.stringify(one.arm) === JSON.stringify(arm));
  records.push(same ?? record(arm));
  writeFileSync(path, `${JSON.stringify(records, null, 1)}\n`);
}
