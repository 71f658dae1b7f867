import { area } from '../../solid/profile.ts';
import type { Contour, Vec2, Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { type AxisFrame, axisFrame } from './axisFrame.ts';

/** A donor cut across an axis. */
export interface Section {
  readonly level: number;
  /** Inside the outer contours and outside the holes, in the unit of the mesh squared. */
  readonly area: number;
  /** In the two directions across the axis, outer contours counter-clockwise and holes clockwise seen from its tip. */
  readonly contours: readonly Contour[];
  /** What the contours' coordinates are measured along. */
  readonly across: readonly [Readonly<Vec3>, Readonly<Vec3>];
  /** Every contour came back to its start, as it does on a closed mesh. */
  readonly closed: boolean;
}

/** The section at one level, exact for the facets: a vertex on the level counts as above it.
 *  @example sectionAt(cubeOfSide2, [0, 0, 1], 0.5).area // => 4 */
export const sectionAt = (mesh: DonorMesh, axis: Readonly<Vec3>, level: number): Section =>
  sectionsAt(mesh.triangles, axisFrame(mesh.positions, axis), [level])[0]!;

/** Sections at several levels in one pass over the triangles. */
export function sectionsAt(
  triangles: Uint32Array,
  frame: AxisFrame,
  levels: readonly number[],
): readonly Section[] {
  return sectionsWithEdges(triangles, frame, levels).map(({ edges: _, ...section }) => section);
}

/** The same with one mesh edge that each contour passes, as its two vertices. */
export function sectionsWithEdges(
  triangles: Uint32Array,
  frame: AxisFrame,
  levels: readonly number[],
): readonly (Section & { readonly edges: readonly (readonly [number, number])[] })[] {
  const vertices = frame.coordinates.length / 3;
  const cuts = levels.map(() => ({ starts: [] as number[], ends: [] as number[], points: [] as number[] }));
  eachCrossing(triangles, frame, levels, (k, start, end, x, y) => {
    const cut = cuts[k]!;
    cut.starts.push(start);
    cut.ends.push(end);
    cut.points.push(x, y);
  });
  return cuts.map(({ starts, ends, points }, k) => {
    const { contours, homes, closed } = chained(starts, ends, points);
    const whole = contours.reduce((sum, contour) => sum + area(contour), 0);
    const edges = homes.map((home) => [Math.floor(home / vertices), home % vertices] as const);
    return { level: levels[k]!, area: whole, contours, across: frame.across, closed, edges };
  });
}

/** Areas alone, without putting contours together. */
export function sectionAreas(
  triangles: Uint32Array,
  frame: AxisFrame,
  levels: readonly number[],
): Float64Array {
  const twice = new Float64Array(levels.length);
  const origin = new Float64Array(2 * levels.length).fill(Number.NaN);
  eachCrossing(triangles, frame, levels, (k, _start, _end, x, y, endX, endY) => {
    // About a point of the section itself, so that a donor far from the origin loses no digits.
    if (Number.isNaN(origin[2 * k]!)) origin.set([x, y], 2 * k);
    const [ox, oy] = [origin[2 * k]!, origin[2 * k + 1]!];
    twice[k]! += (x - ox) * (endY - oy) - (endX - ox) * (y - oy);
  });
  return twice.map((double) => double / 2);
}

/** Pieces of a section in no order, four numbers each: where it starts and where it ends, across the axis. */
export type Outline = readonly number[];

/** The pieces of sections, without putting contours together. */
export function outlinesAt(
  triangles: Uint32Array,
  frame: AxisFrame,
  levels: readonly number[],
): readonly Outline[] {
  const outlines = levels.map((): number[] => []);
  eachCrossing(triangles, frame, levels, (k, _start, _end, x, y, endX, endY) => {
    outlines[k]!.push(x, y, endX, endY);
  });
  return outlines;
}

/** A triangle crosses level k: the numbers of the two mesh edges and the points where its piece of the section starts
 *  and ends, solid on the left. */
type Visit = (
  k: number,
  start: number,
  end: number,
  x: number,
  y: number,
  endX: number,
  endY: number,
) => void;

function eachCrossing(
  triangles: Uint32Array,
  frame: AxisFrame,
  levels: readonly number[],
  visit: Visit,
): void {
  const order = levels.map((_, k) => k).sort((a, b) => levels[a]! - levels[b]!);
  const sorted = Float64Array.from(order, (k) => levels[k]!);
  const { coordinates: c, u, v, h } = frame;
  const vertices = c.length / 3;
  // The same two vertices in the same order for both triangles at an edge, so that both get the same bits.
  const at = (a: number, b: number, level: number, across: number): number => {
    const i = 3 * Math.min(a, b);
    const j = 3 * Math.max(a, b);
    const share = (level - c[i + h]!) / (c[j + h]! - c[i + h]!);
    return c[i + across]! + share * (c[j + across]! - c[i + across]!);
  };
  const edge = (a: number, b: number): number => (a < b ? a * vertices + b : b * vertices + a);
  const [first, last] = [sorted[0] ?? Infinity, sorted.at(-1) ?? -Infinity];
  // No arrays taken apart in here: a million triangles pass, and few of them cross a level.
  for (let t = 0; t < triangles.length; t += 3) {
    const p = triangles[t]!;
    const q = triangles[t + 1]!;
    const r = triangles[t + 2]!;
    const hp = c[3 * p + h]!;
    const hq = c[3 * q + h]!;
    const hr = c[3 * r + h]!;
    const low = Math.min(hp, hq, hr);
    const high = Math.max(hp, hq, hr);
    if (low >= last || high < first) continue;
    for (let k = firstAbove(sorted, low); k < sorted.length && sorted[k]! <= high; k++) {
      const level = sorted[k]!;
      const up = hp >= level;
      const uq = hq >= level;
      const ur = hr >= level;
      // Counter-clockwise from outside, the side that goes up lies to the right: there the piece ends.
      const a = !up && uq ? p : !uq && ur ? q : r;
      const b = a === p ? q : a === q ? r : p;
      const d = up && !uq ? p : uq && !ur ? q : r;
      const e = d === p ? q : d === q ? r : p;
      visit(
        order[k]!,
        edge(d, e),
        edge(a, b),
        at(d, e, level, u),
        at(d, e, level, v),
        at(a, b, level, u),
        at(a, b, level, v),
      );
    }
  }
}

/** Index of the first level above `low`. */
function firstAbove(sorted: Float64Array, low: number): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (sorted[middle]! > low) to = middle;
    else from = middle + 1;
  }
  return from;
}

function chained(
  starts: readonly number[],
  ends: readonly number[],
  points: readonly number[],
): { contours: Contour[]; homes: number[]; closed: boolean } {
  // Where more than two triangles share an edge, several pieces start there.
  const waiting = new Map<number, number[]>();
  starts.forEach((start, k) => {
    const list = waiting.get(start);
    if (list) list.push(k);
    else waiting.set(start, [k]);
  });
  const contours: Contour[] = [];
  const homes: number[] = [];
  let closed = true;
  for (let first = 0; first < starts.length; first++) {
    const home = starts[first]!;
    if (!waiting.get(home)?.includes(first)) continue;
    const contour: Vec2[] = [];
    for (let key = home; ; ) {
      const piece = waiting.get(key)?.pop();
      if (piece === undefined) {
        closed = false;
        break;
      }
      contour.push([points[2 * piece]!, points[2 * piece + 1]!]);
      key = ends[piece]!;
      if (key === home) break;
    }
    contours.push(contour);
    homes.push(home);
  }
  return { contours, homes, closed };
}
