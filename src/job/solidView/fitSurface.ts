import type { PlannedInterface } from '../../check/context.ts';
import type { HostPart, Pose } from '../../family/machine.ts';
import type { Mesh } from '../../solid/mesh.ts';
import { MeshIndex } from '../../solid/meshIndex.ts';
import { identity, inverse, place, turn } from '../../solid/placement.ts';
import { dot, type Placement, subtract, type Vec3 } from '../../solid/vector.ts';
import { refined } from './refined.ts';

/** What a gap is held against, mm a side. */
export interface GapWanted {
  /** In bench words: "post in socket, width", or the part of the machine to keep away from. */
  readonly name: string;
  readonly least: number;
  /** Infinite where any gap will do. */
  readonly most: number;
}

/** The print's surface, cut fine where it comes near the machine, and how near it comes there. */
export interface FitSurface {
  /** Nine numbers a triangle, mm, frame of the part. */
  readonly positions: Float32Array;
  readonly wanted: readonly GapWanted[];
  /** For each pose of the motion. */
  readonly poses: readonly GapsInPose[];
}

/** Gaps at the corners of the triangles, three a triangle. */
export interface GapsInPose {
  /** Distance a side from the print to the machine, mm; below 0 where the print reaches into it. Not a number where the surface
   *  faces nothing near. */
  readonly gap: Float32Array;
  /** Which of `wanted` it is held against; -1 for none. */
  readonly against: Int8Array;
}

/** Gaps are looked for as far as this, mm. */
export const REACH = 0.8;
/** The finest triangles, mm, and the share of the part's size they need not fall below. */
const FINEST = 0.4;
const SHARE = 1 / 80;
const MOST_TRIANGLES = 40_000;
/** A surface faces the machine when its normal is opposite to the machine's within 30 degrees. */
const FACING = Math.cos(Math.PI / 6);
/** Nearer than this the direction from the one to the other says nothing, mm. */
const TOUCHING = 0.02;
/** What rests may sink in by this much, which is rounding of faces that touch and of the predicted print, and what lies as near as that
 *  is told to rest, mm. */
const RESTING = 0.02;
const NEAR_REST = 0.1;

interface Host {
  readonly part: HostPart;
  readonly index: MeshIndex;
  /** Numbers in `wanted`. */
  readonly meets: readonly { readonly wanted: number; readonly planned: PlannedInterface }[];
  readonly keeps: number;
  /** Gaps to it from here on are no news where no interface wants one, mm. */
  readonly plain: number;
}

/** Measures the print against the machine in each pose: distance a side from each corner of the refined surface to the
 *  nearest host it faces, found in a tree of the host's triangles. Windows of clearance are diametral, so half of one is
 *  wanted a side; a host with a gap to keep wants that, one to rest on wants contact. Steps from face to face are not
 *  gaps and want nothing. */
export function fitSurface(
  print: Mesh,
  hosts: readonly { readonly part: HostPart; readonly mesh: Mesh }[],
  poses: readonly Pose[],
  interfaces: readonly PlannedInterface[],
): FitSurface {
  const { wanted, known } = wantedOf(hosts, interfaces);
  const stands = poses.length > 0 ? poses : [{ name: '', placements: {} }];
  const all = known.flatMap(({ part, index }) => {
    const places = stands.map(({ placements }) => placements[part.id] ?? identity);
    return [...new Map(places.map((one) => [keyOf(one), one])).values()].map((one) => ({
      index,
      back: inverse(one),
    }));
  });
  const length = Math.max(FINEST, SHARE * diagonalOf(print));
  const surface = refined(print, length, MOST_TRIANGLES, (x, y, z, radius) =>
    all.some(({ index, back }) => index.nearest(place(back, [x, y, z]), REACH + radius) !== null),
  );
  const size = diagonalOf(print);
  // Most hosts stand still while others move.
  const measured = new Map<string, GapsInPose>();
  const gapsTo = (host: Host, placement: Placement): GapsInPose => {
    const key = `${host.part.id} ${keyOf(placement)}`;
    let gaps = measured.get(key);
    if (!gaps) {
      gaps = gapsIn(surface, host, placement, size);
      measured.set(key, gaps);
    }
    return gaps;
  };
  return {
    positions: unshared(surface),
    wanted,
    poses: stands.map(({ placements }) =>
      nearestOf(
        surface.triangles.length,
        known.map((host) => gapsTo(host, placements[host.part.id] ?? identity)),
      ),
    ),
  };
}

const keyOf = ({ rotation, translation }: Placement): string => [...rotation, ...translation].join();

/** Of the gaps to several hosts the least at each corner. */
function nearestOf(corners: number, hosts: readonly GapsInPose[]): GapsInPose {
  const gap = new Float32Array(corners).fill(Number.NaN);
  const against = new Int8Array(corners).fill(-1);
  for (const host of hosts) {
    host.gap.forEach((value, k) => {
      if (Number.isNaN(value) || value >= gap[k]!) return;
      gap[k] = value;
      against[k] = host.against[k]!;
    });
  }
  return { gap, against };
}

function wantedOf(
  hosts: readonly { readonly part: HostPart; readonly mesh: Mesh }[],
  interfaces: readonly PlannedInterface[],
): { wanted: readonly GapWanted[]; known: readonly Host[] } {
  const wanted: GapWanted[] = [];
  const known = hosts.map(({ part, mesh }): Host => {
    const meets = interfaces
      .filter(({ id, kind }) => kind !== 'step' && part.meets?.includes(id))
      .map((planned) => {
        const { name, window } = planned;
        return { planned, wanted: wanted.push({ name, least: window.lo / 2, most: window.hi / 2 }) - 1 };
      });
    const least = part.keepOff > 0 ? part.keepOff : -RESTING;
    const keeps = wanted.push({ name: part.name, least, most: Infinity }) - 1;
    const plain = part.seat === undefined ? least : NEAR_REST;
    return { part, index: new MeshIndex(mesh), meets, keeps, plain };
  });
  return { wanted, known };
}

function gapsIn({ positions, triangles }: Mesh, host: Host, placement: Placement, size: number): GapsInPose {
  const gap = new Float32Array(triangles.length).fill(Number.NaN);
  const against = new Int8Array(triangles.length).fill(-1);
  const back = inverse(placement);
  const points = Array.from({ length: positions.length / 3 }, (_, vertex) => pointAt(positions, vertex));
  const found = points.map((p) => nearestTo(host.index, place(back, p), placement));
  for (let t = 0; t < triangles.length; t += 3) {
    const vertices = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    if (vertices.every((vertex) => found[vertex] === null)) continue;
    const normal = normalOf(vertices.map((vertex) => points[vertex]!) as [Vec3, Vec3, Vec3]);
    if (!normal) continue;
    vertices.forEach((vertex, k) => {
      const near = found[vertex] ?? null;
      if (near === null || !faces(normal, near)) return;
      const held = heldAgainst(host, points[vertex]!, normal, size);
      if (held === host.keeps && near.distance >= host.plain) return;
      gap[t + k] = near.distance;
      against[t + k] = held;
    });
  }
  return { gap, against };
}

interface Near {
  /** Below 0 inside. */
  readonly distance: number;
  readonly way: Vec3;
  readonly normal: Vec3;
}

function nearestTo(index: MeshIndex, p: Vec3, placement: Placement): Near | null {
  const found = index.nearest(p, REACH);
  if (!found) return null;
  const inside = index.holds(p);
  return {
    distance: inside ? -found.distance : found.distance,
    way: turn(placement, subtract(found.at, p)),
    normal: turn(placement, index.normal(found.triangle)),
  };
}

/** Whether a surface looks at the machine there, or has gone into it that way. */
function faces(normal: Vec3, { distance, way, normal: other }: Near): boolean {
  if (dot(normal, other) > -FACING) return false;
  return Math.abs(distance) < TOUCHING || dot(normal, way) / distance > FACING;
}

/** Of the interfaces of a host the one measured across this face whose middle is nearest; else the gap to keep. */
function heldAgainst(host: Host, p: Vec3, normal: Vec3, size: number): number {
  let [best, least] = [host.keeps, Infinity];
  for (const { planned, wanted } of host.meets) {
    const round = planned.round !== undefined || (planned.kind === 'bore' && planned.hydraulic === undefined);
    const across = round
      ? Math.sqrt(Math.max(0, 1 - dot(normal, planned.axis) ** 2))
      : Math.abs(dot(normal, planned.across));
    if (across < FACING) continue;
    // Faces square to the way it is measured come before those of a round that merely leans that way.
    const away = Math.hypot(...subtract(p, planned.at)) + size * (1 - Math.abs(dot(normal, planned.across)));
    if (away < least) [best, least] = [wanted, away];
  }
  return best;
}

const pointAt = (positions: Float32Array, vertex: number): Vec3 => [
  positions[3 * vertex]!,
  positions[3 * vertex + 1]!,
  positions[3 * vertex + 2]!,
];

function normalOf([a, b, c]: readonly [Vec3, Vec3, Vec3]): Vec3 | null {
  const [u, v] = [subtract(b, a), subtract(c, a)];
  const n: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  const size = Math.hypot(...n);
  return size === 0 ? null : [n[0] / size, n[1] / size, n[2] / size];
}

function unshared({ positions, triangles }: Mesh): Float32Array {
  const corners = new Float32Array(3 * triangles.length);
  triangles.forEach((vertex, k) => {
    corners.set(positions.subarray(3 * vertex, 3 * vertex + 3), 3 * k);
  });
  return corners;
}

function diagonalOf({ positions }: Mesh): number {
  const [low, high] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  positions.forEach((value, i) => {
    low[i % 3] = Math.min(low[i % 3]!, value);
    high[i % 3] = Math.max(high[i % 3]!, value);
  });
  return Math.hypot(...high.map((value, k) => value - low[k]!));
}
