import { axisFrame } from '../../src/donor/spans/axisFrame.ts';
import { outlinesAt } from '../../src/donor/spans/section.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { inverse, place, turn } from '../../src/solid/placement.ts';
import { dot, type Placement, type Vec3 } from '../../src/solid/vector.ts';

/** Where a plane cuts a solid: flat lists of points, three numbers each, mm. */
export interface CutFace {
  /** Three points a triangle. */
  readonly fill: Float32Array;
  /** Two points a line: the outline, and thin lines at 45 degrees over what is cut. */
  readonly outline: Float32Array;
  readonly hatching: Float32Array;
}

/** A plane: all points p with `normal` . p = `level`, `normal` a unit vector, mm. */
export interface CutPlane {
  readonly normal: Readonly<Vec3>;
  readonly level: number;
}

/** Planes are moved by this, mm, so that one along a face of the solid does not meet it: far below what is seen, and no
 *  round number, as heights of faces are. */
const ASIDE = 1.37e-4;

/** Cuts a closed solid that stands at `placement`. The face is made up of strips between the heights of the outline's
 *  corners, so that it needs neither contours nor holes to be told apart. `spacing` of the hatching in mm; 0 for none.
 *  @example cutFace(cubeOfSide2, { normal: [0, 0, 1], level: 0.5 }, 0).outline.length // => 6 numbers a line */
export function cutFace(mesh: Mesh, plane: CutPlane, spacing: number, placement?: Placement): CutFace {
  const { normal, level } = placement ? moved(plane, inverse(placement)) : plane;
  const frame = axisFrame(Float64Array.from(mesh.positions), normal);
  const height = level + ASIDE;
  const lines = outlinesAt(mesh.triangles, frame, [height])[0]!;
  const [u, v] = frame.across;
  const point = (x: number, y: number): Vec3 => {
    const p = [0, 1, 2].map((k) => u[k]! * x + v[k]! * y + frame.axis[k]! * height) as Vec3;
    return placement ? place(placement, p) : p;
  };
  const pairs = (flat: readonly number[]): Float32Array => {
    const points = new Float32Array((flat.length / 2) * 3);
    for (let i = 0; i < flat.length; i += 2) points.set(point(flat[i]!, flat[i + 1]!), (3 * i) / 2);
    return points;
  };
  return {
    fill: pairs(stripsOf(lines)),
    outline: pairs(lines),
    hatching: pairs(spacing > 0 ? hatchingOf(lines, spacing) : []),
  };
}

/** The plane as it lies in a frame that `into` leads to. */
function moved({ normal, level }: CutPlane, into: Placement): CutPlane {
  const there = turn(into, normal);
  return { normal: there, level: level + dot(there, into.translation) };
}

/** Triangles that fill what the lines enclose, by the even-odd rule. */
function stripsOf(lines: readonly number[]): number[] {
  const heights = [...new Set(lines.filter((_, i) => i % 2 === 1))].sort((a, b) => a - b);
  const byStart = linesUpward(lines);
  const strips: number[] = [];
  let active: readonly Upward[] = [];
  let next = 0;
  for (let k = 1; k < heights.length; k++) {
    const [low, high] = [heights[k - 1]!, heights[k]!];
    active = active.filter((line) => line.y1 > low);
    while (next < byStart.length && byStart[next]!.y0 <= low) active = [...active, byStart[next++]!];
    const middle = (low + high) / 2;
    const across = active.filter((line) => line.y1 > low).toSorted((a, b) => xAt(a, middle) - xAt(b, middle));
    for (let i = 1; i < across.length; i += 2) {
      const [left, right] = [across[i - 1]!, across[i]!];
      const [a, b, c, d] = [xAt(left, low), xAt(right, low), xAt(right, high), xAt(left, high)];
      strips.push(a, low, b, low, c, high, a, low, c, high, d, high);
    }
  }
  return strips;
}

interface Upward {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const xAt = ({ x0, y0, x1, y1 }: Upward, y: number): number => x0 + ((y - y0) / (y1 - y0)) * (x1 - x0);

/** Lines that are not level, from their lower end up, those that start lowest first. */
function linesUpward(lines: readonly number[]): Upward[] {
  const upward: Upward[] = [];
  for (let i = 0; i < lines.length; i += 4) {
    const [x0, y0, x1, y1] = [lines[i]!, lines[i + 1]!, lines[i + 2]!, lines[i + 3]!];
    if (y0 < y1) upward.push({ x0, y0, x1, y1 });
    else if (y1 < y0) upward.push({ x0: x1, y0: y1, x1: x0, y1: y0 });
  }
  return upward.sort((a, b) => a.y0 - b.y0);
}

/** Lines at 45 degrees, `spacing` apart, over what the outline encloses. */
function hatchingOf(lines: readonly number[], spacing: number): number[] {
  // In coordinates along and across the hatching: s = (x + y) / 2, t = y - x.
  const slanted: number[] = [];
  for (let i = 0; i < lines.length; i += 2)
    slanted.push((lines[i]! + lines[i + 1]!) / 2, lines[i + 1]! - lines[i]!);
  const upward = linesUpward(slanted);
  const step = spacing * Math.SQRT2;
  const crossings = new Map<number, number[]>();
  for (const line of upward) {
    for (let k = Math.ceil(line.y0 / step); k * step < line.y1; k++) {
      const there = crossings.get(k);
      if (there) there.push(xAt(line, k * step));
      else crossings.set(k, [xAt(line, k * step)]);
    }
  }
  const hatching: number[] = [];
  for (const [k, along] of crossings) {
    along.sort((a, b) => a - b);
    for (let i = 1; i < along.length; i += 2) {
      for (const s of [along[i - 1]!, along[i]!]) hatching.push(s - (k * step) / 2, s + (k * step) / 2);
    }
  }
  return hatching;
}
