import type { Vec3 } from '../../solid/vector.ts';
import { type AxisFrame, axisFrame } from './axisFrame.ts';
import type { LocatedWall } from './locateWall.ts';
import type { Surface } from './surfaceOf.ts';

/** What stands around a wall, for a change of its diameter. */
export interface WallSurroundings {
  readonly frame: AxisFrame;
  /** 1 for triangles of the wall, 2 for the surfaces it opens into or stands on, 0 for all others. */
  readonly role: Uint8Array;
  /** Along the axis, the stretch in which the wall goes all the way round. */
  readonly whole: readonly [number, number];
}

/** Surfaces that run on from a face with less of a turn than this belong to it, radians. */
const SMOOTH = 0.45;

/** Sorts the triangles around a wall. */
export function wallSurroundings(surface: Surface, wall: LocatedWall): WallSurroundings {
  const { mesh, mates, bends } = surface;
  const { positions: p, triangles } = mesh;
  const frame = axisFrame(wall.cylinder);
  const role = new Uint8Array(mates.length / 3);
  for (const t of wall.triangles) role[t] = 1;
  const queue: number[] = [];
  // Rim edges split into the two ends by the side on which their triangle lies.
  let [low, high] = [wall.from, wall.to];
  const along = (v: number) => frame.local(p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!)[2];
  for (const t of wall.triangles) {
    for (let k = 0; k < 3; k++) {
      const mate = mates[3 * t + k]!;
      if (mate === -1 || role[Math.floor(mate / 3)] === 1) continue;
      const next = Math.floor(mate / 3);
      if (role[next] === 0) {
        role[next] = 2;
        queue.push(next);
      }
      const [a, b, c] = [0, 1, 2].map((j) => along(triangles[3 * t + ((k + j) % 3)]!)) as Vec3;
      if (Math.abs(a - b) > 0.5 * Math.abs(c - (a + b) / 2) && Math.abs(a - b) > 0.5 * (wall.to - wall.from))
        continue;
      if ((a + b) / 2 > c) high = Math.min(high, a, b);
      else low = Math.max(low, a, b);
    }
  }
  for (let i = 0; i < queue.length; i++) {
    for (let h = 3 * queue[i]!; h < 3 * queue[i]! + 3; h++) {
      const next = Math.floor(mates[h]! / 3);
      if (mates[h] === -1 || role[next] !== 0 || Math.abs(bends[h]!) > SMOOTH) continue;
      role[next] = 2;
      queue.push(next);
    }
  }
  return { frame, role, whole: low < high ? [low, high] : [wall.from, wall.to] };
}

/** What stands nearest in the way of a wall that is to lie between two radii, beside it and not where it opens. */
export interface InTheWay {
  readonly at: Vec3;
  /** Its distance from the axis, on the side of the wall it is met from. */
  readonly radius: number;
}

/** Looks for surfaces between the wall as it is and as it shall be. `outward`: the wall grows from `inner` to `outer`. */
export function inTheWay(
  surface: Surface,
  wall: LocatedWall,
  { frame, role }: WallSurroundings,
  inner: number,
  outer: number,
  outward: boolean,
): InTheWay | undefined {
  const { mates, bends } = surface;
  const { positions: p, triangles } = surface.mesh;
  const rim = 1e-5 * surface.diagonal;
  const [low, high] = [wall.from + rim, wall.to - rim];
  let found: InTheWay | undefined;
  const corner = (h: number): Vec3 => {
    const v = 3 * triangles[h]!;
    return frame.local(p[v]!, p[v + 1]!, p[v + 2]!);
  };
  const isLevel = ([, , s]: Vec3) => Math.abs(s - wall.from) < rim || Math.abs(s - wall.to) < rim;
  for (let t = 0; t < role.length; t++) {
    if (role[t] === 1) continue;
    if (role[t] === 0) {
      const piece = between([corner(3 * t), corner(3 * t + 1), corner(3 * t + 2)], low, high);
      if (piece.length > 1) look(piece);
      continue;
    }
    // The faces a wall ends in are no obstacle, but where they end is.
    for (let h = 3 * t; h < 3 * t + 3; h++) {
      const mate = mates[h]!;
      if (mate === -1 || role[Math.floor(mate / 3)] === 1 || Math.abs(bends[h]!) < SMOOTH) continue;
      const edge = [corner(h), corner(h % 3 === 2 ? h - 2 : h + 1)];
      if (edge.every(isLevel)) look(edge);
    }
  }
  return found;

  function look(piece: readonly Vec3[]): void {
    const { nearest, at } = fromAxis(piece);
    const farthest = Math.max(...piece.map(([u, w]) => Math.hypot(u, w)));
    if (nearest >= outer || farthest <= inner) return;
    const radius = outward ? nearest : farthest;
    if (found === undefined || (outward ? radius < found.radius : radius > found.radius))
      found = { radius, at: frame.world(...at) };
  }
}

/** The part of a convex polygon between two heights. */
function between(polygon: readonly Vec3[], low: number, high: number): Vec3[] {
  const half = (points: readonly Vec3[], keep: (s: number) => number): Vec3[] => {
    const kept: Vec3[] = [];
    points.forEach((a, i) => {
      const b = points[(i + 1) % points.length]!;
      const [da, db] = [keep(a[2]), keep(b[2])];
      if (da >= 0) kept.push(a);
      if ((da > 0 && db < 0) || (da < 0 && db > 0)) {
        const k = da / (da - db);
        kept.push([a[0] + k * (b[0] - a[0]), a[1] + k * (b[1] - a[1]), a[2] + k * (b[2] - a[2])]);
      }
    });
    return kept;
  };
  return half(
    half(polygon, (s) => s - low),
    (s) => high - s,
  );
}

/** Nearest point of a convex polygon to the axis. */
function fromAxis(polygon: readonly Vec3[]): { nearest: number; at: Vec3 } {
  let [nearest, at]: [number, Vec3] = [Infinity, polygon[0]!];
  let [left, right] = [false, false];
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length]!;
    const [du, dw] = [b[0] - a[0], b[1] - a[1]];
    const square = du * du + dw * dw;
    const k = square === 0 ? 0 : Math.min(1, Math.max(0, -(a[0] * du + a[1] * dw) / square));
    const [u, w] = [a[0] + k * du, a[1] + k * dw];
    const side = a[0] * b[1] - a[1] * b[0];
    if (side > 0) left = true;
    if (side < 0) right = true;
    if (Math.hypot(u, w) < nearest) {
      nearest = Math.hypot(u, w);
      at = [u, w, a[2] + k * (b[2] - a[2])];
    }
  });
  return left && right
    ? { nearest, at }
    : polygon.length > 2
      ? { nearest: 0, at: polygon[0]! }
      : { nearest, at };
}
