// How near the part as drawn comes to each solid of the machine, over the whole motion, and by how much they overlap, against
// distances and rays between the written file and the meshes of the machine.
import { Vector3 } from 'three';
import { expect } from 'vitest';
import { after, identity, inverse, place } from '../../../src/solid/placement.ts';
import type { Placement, Vec3 } from '../../../src/solid/vector.ts';
import type { Judged } from './drawnJobs.ts';
import { overlapOf } from './overlap.ts';
import { distanceTo, hostPart, isInside, matrix4, partOf, type WrittenPart } from './writtenPart.ts';

/** The finding holds parts 1e-4 mm off their seat and takes overlap below 1e-3 mm for contact; files hold 32-bit numbers. */
const NEAR = 1.2e-3;

export const seen = { gaps: 0, overlaps: 0, worstGap: 0, worstVolume: 0, deepest: 0 };

/** A host as it stands at a pose, in the frame of the written file. */
interface Standing {
  readonly host: WrittenPart;
  /** From the frame of the host's mesh to that of the file. */
  readonly there: Placement;
}

const toHost = ({ there }: Standing, p: Vec3): Vec3 => place(inverse(there), p);

/** The host where it stands, as a part of its own. */
const moved = ({ host, there }: Standing): WrittenPart =>
  partOf(host.geometry.clone().applyMatrix4(matrix4(there)));

/** Least distance between two surfaces. */
function gapBetween(written: WrittenPart, { host, there }: Standing, most: number): number {
  const found = written.bvh.closestPointToGeometry(
    host.geometry,
    matrix4(there),
    { point: new Vector3() } as never,
    {} as never,
    0,
    most,
  );
  return found === null ? Infinity : (found as unknown as { distance: number }).distance;
}

/** Where part and host can overlap: the box that both boxes share, in the frame of the file; null when there is none. */
function sharedBox(written: WrittenPart, { host, there }: Standing): { low: Vec3; high: Vec3 } | null {
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((k) =>
    place(there, [0, 1, 2].map((i) => ((k >> i) & 1 ? host.high : host.low)[i]!) as Vec3),
  );
  const low = written.low.map((x, k) => Math.max(x, Math.min(...corners.map((c) => c[k]!)))) as Vec3;
  const high = written.high.map((x, k) => Math.min(x, Math.max(...corners.map((c) => c[k]!)))) as Vec3;
  return low.every((x, k) => x < high[k]!) ? { low, high } : null;
}

/** Radius of the ball about a point that lies in both; 0 or below when the point does not. */
function room(written: WrittenPart, standing: Standing, p: Vec3): number {
  if (!isInside(written, p) || !isInside(standing.host, toHost(standing, p))) return 0;
  return Math.min(distanceTo(written, p), distanceTo(standing.host, toHost(standing, p)));
}

/** Ways to the corners, edges and faces of a cube about a point. */
const WAYS = [-1, 0, 1]
  .flatMap((x) => [-1, 0, 1].flatMap((y) => [-1, 0, 1].map((z): Vec3 => [x, y, z])))
  .filter((way) => way.some((x) => x !== 0))
  .map((way): Vec3 => way.map((x) => x / Math.hypot(...way)) as Vec3);

/** Points that a search starts from, and how much it may leave undone: on ridges it stops short. */
const STARTS = 10;
const SHORT = 0.04;
/** Shells as thin as the chord error of two rounds are not searched through, mm. */
const SHELL = 0.005;

const along = (p: Vec3, way: Vec3, by: number): Vec3 => [
  p[0] + by * way[0],
  p[1] + by * way[1],
  p[2] + by * way[2],
];

/** Diameter of the largest ball that a search from these points finds in both, by steps that shrink. */
function largestBall(written: WrittenPart, standing: Standing, from: readonly Vec3[]): number {
  const every = Math.ceil(from.length / 400);
  const starts = from
    .filter((_, k) => k % every === 0)
    // On the outline there is no room; a little further in it shows.
    .flatMap((p) => [0.04, 0.12].flatMap((by) => WAYS.map((way) => along(p, way, by))))
    .map((p) => ({ p, hope: room(written, standing, p) }))
    .sort((a, b) => b.hope - a.hope)
    .slice(0, STARTS);
  let most = 0;
  for (const start of starts) {
    let { p } = start;
    let r = room(written, standing, p);
    for (let step = 0.2; step > 1e-4; step *= 0.6)
      for (const way of WAYS) {
        const q = along(p, way, step);
        const s = room(written, standing, q);
        if (s > r) [p, r] = [q, s];
      }
    most = Math.max(most, r);
  }
  return 2 * most;
}

/** Every place where a host stands during the motion. */
function places({ prepared, scene }: Judged, id: string): Placement[] {
  const poses = prepared.family.motion(prepared.values);
  const found = new Map<string, Placement>();
  for (const { placements } of poses.length > 0 ? poses : [{ placements: {} as Record<string, Placement> }]) {
    const placement = placements[id] ?? identity;
    found.set(JSON.stringify(placement), after(scene.onBed, placement));
  }
  return [...found.values()];
}

/** The part comes as near to the machine, and overlaps it as much, as the findings say. */
export function expectMachineAround(judged: Judged): void {
  const { written, scene, finding, prepared } = judged;
  for (const { id, mesh } of scene.hosts) {
    const found = finding(`gap.${id}.drawn`)!;
    const host = hostPart(mesh);
    const standings = places(judged, id).map((there): Standing => ({ host, there }));
    const volume = Number(found.details!['overlap, mm3']);
    if (volume > 0) {
      seen.overlaps++;
      // Somewhere on the way they overlap by that volume, and a ball of the depth that the finding states lies in both
      // there; a corner that pokes in it underrates by up to two fifths, as it says of itself.
      const overlaps = standings.flatMap((one) => {
        const box = sharedBox(written, one);
        return box === null ? [] : [{ one, ...overlapOf(written, moved(one), box.low[2], box.high[2]) }];
      });
      const nearest = overlaps.reduce((a, b) =>
        Math.abs(b.volume - volume) < Math.abs(a.volume - volume) ? b : a,
      );
      const off = Math.abs(nearest.volume - volume);
      seen.worstVolume = Math.max(seen.worstVolume, off / volume);
      expect(off, `${id} ${volume} ${nearest.volume}`).toBeLessThan(0.02 * volume + 0.01);
      const ball = largestBall(written, nearest.one, nearest.outline);
      const depth = -found.value!;
      if (depth > 0.05) seen.deepest = Math.max(seen.deepest, depth / ball);
      expect(depth, id).toBeLessThan((1 + SHORT) * ball + SHELL);
      // Of several fits the finding names the one that is passed by most, which need not be the deepest place.
      const meets = prepared.family.host(prepared.values).find((host) => host.id === id)?.meets ?? [];
      if (meets.length < 2) expect(depth, id).toBeGreaterThan((0.6 - SHORT) * ball - SHELL);
    } else {
      seen.gaps++;
      const most = found.value! + 1;
      const least = Math.min(...standings.map((one) => gapBetween(written, one, most)));
      if (found.details!.pose === undefined) expect(least, id).toBeGreaterThan(found.value! - NEAR);
      else {
        seen.worstGap = Math.max(seen.worstGap, Math.abs(least - found.value!));
        expect(Math.abs(least - found.value!), `${id} ${found.value} ${least}`).toBeLessThan(NEAR);
      }
    }
  }
}
