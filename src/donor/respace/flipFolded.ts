import { type AxisFrame, diagonalOf } from '../spans/axisFrame.ts';
import { EarliestFirst } from './earliestFirst.ts';
import { SLIVER } from './foldedBy.ts';
import type { LevelMap } from './levelMap.ts';

/** Furthest a corner may lie off the plane of the triangle beside it for the two to be one flat wall, as a share of the
 *  donor's diagonal: what the rounding of a file leaves. */
const COPLANAR = 1e-6;

/** Sine of the angle up to which a triangle is tried as part of a wall; the plane is held more closely before an exchange. */
const WALL = 0.02;

/** The donor's triangles with edges of flat walls exchanged so that the map turns none of them over; undefined where that
 *  cannot be done. Corners and number of triangles stay.
 *
 *  Seen as a motion, the map lifts every corner of a wall at a steady pace, and the twice-area of each triangle is a
 *  straight line in time. When one reaches 0 its middle corner lies on its longest side, and that side is
 *  exchanged for the other diagonal with the triangle beyond it. The outline of the wall is mapped one to one, so the
 *  beyond is always part of the wall. */
export function flipFolded(
  triangles: Uint32Array,
  frame: AxisFrame,
  levels: Float64Array,
  map: LevelMap,
  across: readonly number[],
  folded: readonly number[],
): Uint32Array | undefined {
  const { coordinates: c, u, v } = frame;
  const flat = COPLANAR * diagonalOf(frame);
  const result = triangles.slice();
  const count = levels.length;
  const ends = new Map<number, number>();
  const endOf = (k: number): number => {
    let end = ends.get(k);
    if (end === undefined) {
      end = levels[k]! + map.shift(levels[k]!);
      ends.set(k, end);
    }
    return end;
  };

  const beyond = new Map<number, number>();
  const own = (t: number): void => {
    for (let k = 0; k < 3; k++) beyond.set(result[3 * t + k]! * count + result[3 * t + ((k + 1) % 3)]!, t);
  };
  for (const t of across) own(t);

  // Which way each wall faces, as two numbers across the axis; none for a triangle that leans or is a sliver.
  const facing = new Map<number, readonly [number, number]>();
  const slivers: number[] = [];
  for (const t of across) {
    const [p, q, r] = [result[3 * t]!, result[3 * t + 1]!, result[3 * t + 2]!];
    const [bu, bv, bh] = [
      c[3 * q + u]! - c[3 * p + u]!,
      c[3 * q + v]! - c[3 * p + v]!,
      levels[q]! - levels[p]!,
    ];
    const [du, dv, dh] = [
      c[3 * r + u]! - c[3 * p + u]!,
      c[3 * r + v]! - c[3 * p + v]!,
      levels[r]! - levels[p]!,
    ];
    const [nu, nv] = [bv * dh - bh * dv, bh * du - bu * dh];
    const size = Math.hypot(nu, nv);
    const seen = Math.abs(bu * dv - bv * du);
    const longest = bu * bu + bv * bv + bh * bh + du * du + dv * dv + dh * dh;
    if (Math.hypot(size, seen) <= 1e3 * SLIVER * longest) slivers.push(t);
    else if (seen <= WALL * size) facing.set(t, [nu / size, nv / size]);
  }
  // A sliver faces where the wall beyond its longest side does; a row of slivers hands it on.
  for (let left = slivers, before = -1; left.length > 0 && left.length !== before; ) {
    before = left.length;
    left = left.filter((t) => {
      const [p, q] = longestSide(t, 0);
      const known = facing.get(beyond.get(q * count + p) ?? -1);
      if (known) facing.set(t, known);
      return !known;
    });
  }

  // Not on a wall, so what turned over is more than a matter of diagonals.
  if (!folded.every((t) => facing.has(t))) return undefined;

  function levelAt(k: number, time: number): number {
    return levels[k]! + time * (endOf(k) - levels[k]!);
  }

  /** Ends of the longest side in the order of the triangle, and the corner opposite. */
  function longestSide(t: number, time: number): readonly [number, number, number] {
    const corners = [result[3 * t]!, result[3 * t + 1]!, result[3 * t + 2]!] as const;
    const square = (a: number, b: number): number =>
      (c[3 * a + u]! - c[3 * b + u]!) ** 2 +
      (c[3 * a + v]! - c[3 * b + v]!) ** 2 +
      (levelAt(a, time) - levelAt(b, time)) ** 2;
    const [p, q, r] = corners;
    const [pq, qr, rp] = [square(p, q), square(q, r), square(r, p)];
    if (pq >= qr && pq >= rp) return [p, q, r];
    return qr >= rp ? [q, r, p] : [r, p, q];
  }

  /** Twice the area on its wall, positive when it faces outward. */
  function areaAt(t: number, time: number, [nu, nv]: readonly [number, number]): number {
    const [p, q, r] = [result[3 * t]!, result[3 * t + 1]!, result[3 * t + 2]!];
    const along = (a: number, b: number): number =>
      nu * (c[3 * b + v]! - c[3 * a + v]!) - nv * (c[3 * b + u]! - c[3 * a + u]!);
    const rise = (a: number, b: number): number => levelAt(b, time) - levelAt(a, time);
    return along(p, q) * rise(p, r) - rise(p, q) * along(p, r);
  }

  /** What twice an area may be and still count as none. */
  const nothing = (t: number): number => {
    const [p, q] = longestSide(t, 1);
    const square =
      (c[3 * p + u]! - c[3 * q + u]!) ** 2 +
      (c[3 * p + v]! - c[3 * q + v]!) ** 2 +
      (endOf(p) - endOf(q)) ** 2;
    return SLIVER * square;
  };

  const queue = new EarliestFirst();
  const version = new Map<number, number>();
  const expect = (t: number, now: number): void => {
    const wall = facing.get(t);
    if (!wall) return;
    const [start, end] = [areaAt(t, 0, wall), areaAt(t, 1, wall)];
    const none = nothing(t);
    if (end > none || (Math.abs(end) <= none && Math.abs(start) <= none)) return;
    queue.push(Math.max(now, start > end ? start / (start - end) : now), t, version.get(t) ?? 0);
  };
  for (const t of across) expect(t, 0);

  // Each exchange is one of finitely many; corners in one line at one moment might go round in a circle.
  for (let turns = 100 * across.length + 1000; ; turns--) {
    const next = queue.pop();
    if (!next) break;
    if (turns === 0) return undefined;
    const { time, item: t, version: as } = next;
    if ((version.get(t) ?? 0) !== as) continue;
    const wall = facing.get(t)!;
    const [a, b, top] = longestSide(t, time);
    const other = beyond.get(b * count + a);
    if (other === undefined || !facing.has(other)) return undefined;
    const far = [0, 1, 2].map((k) => result[3 * other + k]!).find((k) => k !== a && k !== b);
    if (far === undefined || far === top) return undefined;
    const off = wall[0] * (c[3 * far + u]! - c[3 * a + u]!) + wall[1] * (c[3 * far + v]! - c[3 * a + v]!);
    if (Math.abs(off) > flat) return undefined;
    if (beyond.has(top * count + far) || beyond.has(far * count + top)) return undefined;
    beyond.delete(a * count + b);
    beyond.delete(b * count + a);
    result.set([a, far, top], 3 * t);
    result.set([far, b, top], 3 * other);
    facing.set(other, wall);
    for (const changed of [t, other]) {
      version.set(changed, (version.get(changed) ?? 0) + 1);
      own(changed);
      expect(changed, time);
    }
  }

  for (const [t, wall] of facing) {
    const none = nothing(t);
    const [start, end] = [areaAt(t, 0, wall), areaAt(t, 1, wall)];
    if (!(end > none || (end >= -none && Math.abs(start) <= none))) return undefined;
  }
  return result;
}
