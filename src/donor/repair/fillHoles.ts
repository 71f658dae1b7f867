import { cross, dot, lengthOf, subtract, times, type Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { boxOf, pointOf } from './geometry.ts';
import { nextOf, type Pairing } from './pairing.ts';
import type { Step } from './step.ts';

/** A hole this small against the diagonal of the part is a flaw of the file and not an opening of the part. */
const SMALL = 0.01;
/** Edges around a small hole at most, and how far its corners may lie off a plane, against its own size. */
const MOST_EDGES = 8;
const OFF_PLANE = 0.1;
/** Cosine between a missing triangle and a neighbour that continues its flat face. */
const SAME_FACE = 1 - 1e-6;

/** Fills holes where there is no doubt what was there: a single missing triangle in a flat face, and holes that are
 *  small, nearly flat and bounded by few edges. Two such holes alike may be the ends of a bore without its wall, so
 *  those stay. Expects triangles that face one way. */
export function fillHoles(mesh: DonorMesh, pairing: Pairing): Step {
  const { diagonal } = boxOf(mesh);
  const loops = loopsOf(mesh, pairing.open);
  const fills = loops.flatMap((loop) => {
    const missing = loop.length === 3 && continuesFace(mesh, loop);
    if (!missing && (loop.length > MOST_EDGES || extentOf(mesh, loop) > SMALL * diagonal)) return [];
    if (!missing && loop.length > 3 && loops.some((other) => other !== loop && alike(mesh, loop, other)))
      return [];
    const filling = clipEars(
      mesh,
      loop.map((h) => mesh.triangles[h]!),
    );
    return filling === null ? [] : [{ loop, filling }];
  });
  if (fills.length === 0) return { mesh, count: 0, at: null };
  const added = fills.flatMap(({ filling }) => filling);
  const triangles = new Uint32Array(mesh.triangles.length + added.length);
  triangles.set(mesh.triangles);
  triangles.set(added, mesh.triangles.length);
  return {
    mesh: { positions: mesh.positions, triangles },
    count: fills.length,
    at: middleOfLoop(mesh, fills[0]!.loop),
  };
}

/** Rings of open half-edges, each in the order of the surface around it. Where two holes meet at a vertex nobody can
 *  say which is which; half-edges there are left out. */
export function loopsOf({ triangles }: DonorMesh, open: readonly number[]): readonly (readonly number[])[] {
  const from = new Map<number, number | null>();
  for (const h of open) from.set(triangles[h]!, from.has(triangles[h]!) ? null : h);
  const used = new Set<number>();
  const loops: number[][] = [];
  for (const start of open) {
    const loop: number[] = [];
    let h: number | null | undefined = start;
    while (h !== null && h !== undefined && !used.has(h)) {
      used.add(h);
      loop.push(h);
      h = from.get(triangles[nextOf(h)]!);
    }
    if (h === start && loop.length >= 3) loops.push(loop);
  }
  return loops;
}

/** Middle of the corners of a hole. */
export function middleOfLoop(mesh: DonorMesh, loop: readonly number[]): Vec3 {
  const sum: Vec3 = [0, 0, 0];
  for (const h of loop)
    pointOf(mesh, mesh.triangles[h]!).forEach((x, k) => {
      sum[k]! += x;
    });
  return times(sum, 1 / loop.length);
}

/** Longest side of the box around a hole. */
export function extentOf(mesh: DonorMesh, loop: readonly number[]): number {
  let longest = 0;
  for (let k = 0; k < 3; k++) {
    let [low, high] = [Infinity, -Infinity];
    for (const h of loop) {
      const value = mesh.positions[3 * mesh.triangles[h]! + k]!;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
    longest = Math.max(longest, high - low);
  }
  return longest;
}

/** Whether the triangle missing inside three edges lies in one plane with a neighbour. */
function continuesFace(mesh: DonorMesh, loop: readonly number[]): boolean {
  const [a, b, c] = loop.map((h) => pointOf(mesh, mesh.triangles[h]!)) as [Vec3, Vec3, Vec3];
  // The filling runs the other way around the hole than the surface does.
  const normal = cross(subtract(c, a), subtract(b, a));
  return loop.some((h) => {
    const [p, q, r] = [h, nextOf(h), nextOf(nextOf(h))].map((k) => pointOf(mesh, mesh.triangles[k]!)) as [
      Vec3,
      Vec3,
      Vec3,
    ];
    const neighbour = cross(subtract(q, p), subtract(r, p));
    return dot(normal, neighbour) > SAME_FACE * lengthOf(normal) * lengthOf(neighbour);
  });
}

function alike(mesh: DonorMesh, loop: readonly number[], other: readonly number[]): boolean {
  if (loop.length !== other.length) return false;
  const [a, b] = [extentOf(mesh, loop), extentOf(mesh, other)];
  return Math.abs(a - b) < 0.1 * Math.max(a, b);
}

/** Triangles that fill a nearly flat ring of vertices, given as the surface runs around it; the best-shaped ear is cut
 *  each time. Null when the ring is far from flat or crosses itself. */
function clipEars(mesh: DonorMesh, ring: readonly number[]): readonly number[] | null {
  const left = [...ring].reverse();
  const point = (v: number): Vec3 => pointOf(mesh, v);
  const normal = newell(left.map(point));
  const size = lengthOf(normal);
  if (!(size > 0)) return null;
  const n = times(normal, 1 / size);
  const levels = left.map((v) => dot(point(v), n));
  if (Math.max(...levels) - Math.min(...levels) > OFF_PLANE * Math.sqrt(size)) return null;
  const turn = (a: number, b: number, c: number): number =>
    dot(cross(subtract(point(b), point(a)), subtract(point(c), point(a))), n);
  const filling: number[] = [];
  while (left.length > 3) {
    let [best, quality] = [-1, 0];
    left.forEach((b, k) => {
      const a = left[(k + left.length - 1) % left.length]!;
      const c = left[(k + 1) % left.length]!;
      const area = turn(a, b, c);
      const inside = left.some(
        (v) =>
          v !== a && v !== b && v !== c && turn(a, b, v) >= 0 && turn(b, c, v) >= 0 && turn(c, a, v) >= 0,
      );
      const longest = Math.max(
        lengthOf(subtract(point(b), point(a))),
        lengthOf(subtract(point(c), point(b))),
        lengthOf(subtract(point(a), point(c))),
      );
      if (!inside && area / longest ** 2 > quality) [best, quality] = [k, area / longest ** 2];
    });
    if (best < 0) return null;
    const [a, c] = [left[(best + left.length - 1) % left.length]!, left[(best + 1) % left.length]!];
    filling.push(a, left[best]!, c);
    left.splice(best, 1);
  }
  if (!(turn(left[0]!, left[1]!, left[2]!) > 0)) return null;
  return [...filling, ...left];
}

/** Twice the area vector of a ring of points (Newell's sum). */
function newell(points: readonly Vec3[]): Vec3 {
  const sum: Vec3 = [0, 0, 0];
  points.forEach((p, k) => {
    const q = points[(k + 1) % points.length]!;
    cross(subtract(p, points[0]!), subtract(q, points[0]!)).forEach((x, axis) => {
      sum[axis]! += x;
    });
  });
  return sum;
}
