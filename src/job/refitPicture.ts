import type { Donor } from '../donor/donor.ts';
import { acrossOf } from '../donor/spans/axisFrame.ts';
import type { DonorMesh } from '../donor/types.ts';
import { lineView, project, type Segment, type View } from '../output/drawing/index.ts';
import { cross, dot, type Vec2, type Vec3 } from '../solid/vector.ts';

/** A part lying along an axis, drawn in lines; mm. To the right runs the level on the axis. */
export interface RefitPicture {
  readonly lines: readonly Segment[];
  /** Only the outer outline is drawn, for the part has more facets than are worth drawing. */
  readonly isShadow: boolean;
  /** Across the axis, lowest and highest. */
  readonly low: number;
  readonly high: number;
  /** Bores and posts. */
  readonly marks: readonly PictureMark[];
}

export interface PictureMark {
  readonly id: string;
  /** Its middle: level, and across. */
  readonly at: Vec2;
  /** Across it as drawn where one looks along it; null otherwise. */
  readonly diameter: number | null;
  /** Ends of its axis as drawn where it is seen from the side. */
  readonly ends: readonly [Vec2, Vec2] | null;
}

/** Above this a drawing takes the worker longer than somebody turning the part wants to wait, triangles. */
const DRAWN = 30_000;
/** Steps of a shadow along the axis. */
const STEPS = 700;

/** The view in which an axis runs to the right; `roll` turns the part about it in quarter turns. */
export function viewAlong(axis: Vec3, roll: number): View {
  const [u, v] = acrossOf(axis);
  const upright: Vec3 = Math.abs(axis[2]) > 0.9 ? [0, 1, 0] : [0, 0, 1];
  const ways: Vec3[] = [u, v, minus(u), minus(v)];
  const start = ways.reduce(
    (best, way, k) => (dot(way, upright) > dot(ways[best]!, upright) + 1e-9 ? k : best),
    0,
  );
  const up = ways[(start + roll) % 4]!;
  return { right: axis, up, toward: cross(axis, up) };
}

const minus = ([x, y, z]: Vec3): Vec3 => [-x, -y, -z];

/** Draws a refitted donor along an axis. `place` says where a point of the donor has gone. */
export function refitPicture(
  mesh: DonorMesh,
  { bores, posts }: Pick<Donor['features'], 'bores' | 'posts'>,
  place: (p: Vec3) => Vec3,
  axis: Vec3,
  roll: number,
): RefitPicture {
  const view = viewAlong(axis, roll);
  const isShadow = mesh.triangles.length / 3 > DRAWN;
  const lines = isShadow
    ? shadowOf(mesh, view)
    : lineView([{ positions: Float32Array.from(mesh.positions), triangles: mesh.triangles }], view).visible;
  let [low, high] = [Infinity, -Infinity];
  for (const [p, q] of lines) {
    low = Math.min(low, p[1], q[1]);
    high = Math.max(high, p[1], q[1]);
  }
  const flat = (p: Vec3): Vec2 => {
    const [x, y] = project(view, p);
    return [x, y];
  };
  const marks = [
    ...bores.map(({ depth, ...bore }) => ({ ...bore, long: depth })),
    ...posts.map(({ length, ...post }) => ({ ...post, long: length })),
  ].map(({ id, at, axis: own, diameter, long }): PictureMark => {
    const middle = place(at);
    const end = (sign: number): Vec2 =>
      flat([0, 1, 2].map((k) => middle[k]! + (sign * own[k]! * long) / 2) as Vec3);
    const isRound = Math.abs(dot(own, view.toward)) > 0.99;
    return {
      ...{ id, at: flat(middle) },
      diameter: isRound ? diameter : null,
      ends: isRound ? null : [end(-1), end(1)],
    };
  });
  return { lines, isShadow, low, high, marks };
}

/** The outer outline of a mesh in a view, in steps along the paper. One pass over the triangles, however many. */
function shadowOf({ positions, triangles }: DonorMesh, view: View): readonly Segment[] {
  const count = positions.length / 3;
  const [x, y] = [new Float64Array(count), new Float64Array(count)];
  let [left, right] = [Infinity, -Infinity];
  for (let v = 0; v < count; v++) {
    const p: Vec3 = [positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!];
    x[v] = dot(view.right, p);
    y[v] = dot(view.up, p);
    left = Math.min(left, x[v]!);
    right = Math.max(right, x[v]!);
  }
  const step = (right - left) / STEPS;
  const top = new Float64Array(STEPS + 1).fill(-Infinity);
  const bottom = new Float64Array(STEPS + 1).fill(Infinity);
  const mark = (k: number, at: number): void => {
    if (at > top[k]!) top[k] = at;
    if (at < bottom[k]!) bottom[k] = at;
  };
  const edge = (a: number, b: number): void => {
    const [from, to] = x[a]! <= x[b]! ? [a, b] : [b, a];
    const wide = x[to]! - x[from]!;
    mark(Math.round((x[from]! - left) / step), y[from]!);
    mark(Math.round((x[to]! - left) / step), y[to]!);
    const last = Math.floor((x[to]! - left) / step);
    for (let k = Math.ceil((x[from]! - left) / step); k <= last; k++) {
      const share = wide > 0 ? (left + k * step - x[from]!) / wide : 0;
      mark(k, y[from]! + share * (y[to]! - y[from]!));
    }
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    edge(a, b);
    edge(b, c);
    edge(c, a);
  }
  const lines: Segment[] = [];
  const along = (list: Float64Array): void => {
    for (let k = 1; k <= STEPS; k++)
      lines.push([
        [left + (k - 1) * step, list[k - 1]!],
        [left + k * step, list[k]!],
      ]);
  };
  along(top);
  along(bottom);
  for (const k of [0, STEPS])
    lines.push([
      [left + k * step, bottom[k]!],
      [left + k * step, top[k]!],
    ]);
  return lines;
}
