import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { type AxisFrame, axisFrame, diagonalOf, extentOf } from './axisFrame.ts';
import { sectionsAt } from './section.ts';

/** A stretch along an axis where the section stays the same: every facet that crosses it is parallel to the axis. */
export interface PlainSpan {
  readonly axis: Readonly<Vec3>;
  /** Levels on the axis, and what lies between them. */
  readonly from: number;
  readonly to: number;
  readonly length: number;
  /** How much it can be shortened by, with the rest left standing; never below 0. */
  readonly available: number;
  /** Of the section in the middle, unit of the mesh squared, and how many contours it has. */
  readonly area: number;
  readonly contours: number;
  /** Largest difference between the areas near both ends and in the middle: 0 but for what the stated angle and the
   *  rounding of the file let pass. */
  readonly mismatchArea: number;
}

export interface PlainSpanOptions {
  /** How far a facet may lean from the axis and still count as parallel, degrees; 0 to 45. */
  readonly angle?: number;
  /** Shortest span worth telling; above 0, from a hundred-thousandth of the extent on. */
  readonly shortest?: number;
  /** Left standing when a span is shortened. */
  readonly rest?: number;
}

/** A wall that leans this much moves a thousandth of a millimetre sideways in 10 mm, degrees. Common practice,
 *  no source: below what callipers read. */
export const PARALLEL = 0.005;

/** Seen along the axis a wall is a line. One that is thicker than this share of the donor's diagonal is none: some ten
 *  times what coordinates of 32 bits are rounded by, and about what six written digits are. */
const ROUNDING = 1e-6;

/** Left of a span that is shortened, mm; two lines of a filament printer's common 0.1 mm steps. Common practice, no source. */
export const REST = 0.2;

/** Spans shorter than this share of the extent are not told. */
const SHORTEST = 1 / 1000;
const MOST_CELLS = 1 << 20;

/** The plain spans of a donor along an axis, from low to high. One pass marks in cells along the axis what facets that
 *  are not parallel cover; a span of at least the shortest length holds an empty cell, and its ends are the exact
 *  levels where the last facet stops and the next one starts. Time grows in step with the number of triangles.
 *  Steps between spans are ends, even where the walls on both sides line up; the empty gap between two bodies is no span.
 *  Throws `RangeError` for options out of their range.
 *  @example plainSpans(blockOf10, [0, 0, 1])[0]?.length // => 10 */
export function plainSpans(
  mesh: DonorMesh,
  axis: Readonly<Vec3>,
  options: PlainSpanOptions = {},
): readonly PlainSpan[] {
  return spansIn(mesh.triangles, axisFrame(mesh.positions, axis), options);
}

/** The same for a frame that is there already. */
export function spansIn(
  triangles: Uint32Array,
  frame: AxisFrame,
  options: PlainSpanOptions = {},
): readonly PlainSpan[] {
  const { rest = REST } = options;
  if (!(rest >= 0 && rest < Infinity))
    throw new RangeError(`plainSpans requires rest from 0 on (rest ${rest})`);
  const stretches = plainStretches(triangles, frame, options);
  const sections = sectionsAt(
    triangles,
    frame,
    stretches.flatMap(({ from, to }) => [0.02, 0.5, 0.98].map((share) => from + share * (to - from))),
  );
  return stretches.flatMap(({ from, to }, k): PlainSpan[] => {
    const [low, middle, high] = [sections[3 * k]!, sections[3 * k + 1]!, sections[3 * k + 2]!];
    // The gap between two bodies has nothing in it that could be longer or shorter.
    if (middle.contours.length === 0) return [];
    const areas = [low.area, middle.area, high.area];
    return [
      {
        axis: frame.axis,
        from,
        to,
        length: to - from,
        available: Math.max(0, to - from - rest),
        area: middle.area,
        contours: middle.contours.length,
        mismatchArea: Math.max(...areas) - Math.min(...areas),
      },
    ];
  });
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

function plainStretches(
  triangles: Uint32Array,
  frame: AxisFrame,
  { angle = PARALLEL, shortest }: PlainSpanOptions,
): readonly Stretch[] {
  if (!(angle >= 0 && angle <= 45))
    throw new RangeError(`plainSpans requires an angle from 0 to 45 degrees (angle ${angle})`);
  const [bottom, top] = extentOf(frame);
  const extent = top - bottom;
  const least = shortest ?? SHORTEST * extent;
  if (extent === 0) return [];
  if (!(least >= (2 * extent) / MOST_CELLS))
    throw new RangeError(
      `plainSpans requires a shortest span of at least ${(2 * extent) / MOST_CELLS} (shortest ${least})`,
    );
  const cells = Math.max(1, Math.ceil((2.01 * extent) / least));
  const cellOf = (level: number): number =>
    Math.min(cells - 1, Math.floor(((level - bottom) / extent) * cells));
  const change = new Int32Array(cells + 1);
  const firstStart = new Float64Array(cells).fill(Infinity);
  const lastEnd = new Float64Array(cells).fill(-Infinity);
  eachLeaning(triangles, frame, Math.sin((angle * Math.PI) / 180), (low, high) => {
    const [a, b] = [cellOf(low), cellOf(high)];
    change[a]!++;
    change[b + 1]!--;
    if (low < firstStart[a]!) firstStart[a] = low;
    if (high > lastEnd[b]!) lastEnd[b] = high;
  });

  const found: Stretch[] = [];
  let [depth, from] = [0, bottom];
  let empty = true;
  for (let cell = 0; cell <= cells; cell++) {
    if (cell < cells) depth += change[cell]!;
    const covered = cell === cells || depth > 0;
    if (covered && empty) {
      const to = cell === cells ? top : firstStart[cell]!;
      if (to - from >= least) found.push({ from, to });
    }
    if (cell < cells && depth > 0) from = lastEnd[cell]!;
    empty = !covered;
  }
  return found;
}

/** Lowest and highest level of each facet that is not parallel to the axis. */
export function eachLeaning(
  triangles: Uint32Array,
  frame: AxisFrame,
  sine: number,
  visit: (low: number, high: number, t: number) => void,
): void {
  const { coordinates: c, u, v, h } = frame;
  const thin = ROUNDING * diagonalOf(frame);
  // No arrays taken apart in here: every facet of the donor passes.
  for (let t = 0; t < triangles.length; t += 3) {
    const p = 3 * triangles[t]!;
    const q = 3 * triangles[t + 1]!;
    const r = 3 * triangles[t + 2]!;
    const bu = c[q + u]! - c[p + u]!;
    const bv = c[q + v]! - c[p + v]!;
    const du = c[r + u]! - c[p + u]!;
    const dv = c[r + v]! - c[p + v]!;
    // Twice the area seen along the axis over the longest side seen so: how thick the facet looks.
    const seen = bu * dv - bv * du;
    const longest = Math.max(
      bu * bu + bv * bv,
      du * du + dv * dv,
      (bu - du) * (bu - du) + (bv - dv) * (bv - dv),
    );
    if (seen * seen <= thin * thin * longest) continue;
    const hp = c[p + h]!;
    const hq = c[q + h]!;
    const hr = c[r + h]!;
    const nu = bv * (hr - hp) - (hq - hp) * dv;
    const nv = (hq - hp) * du - bu * (hr - hp);
    if (seen * seen <= sine * sine * (nu * nu + nv * nv + seen * seen)) continue;
    visit(Math.min(hp, hq, hr), Math.max(hp, hq, hr), t);
  }
}
