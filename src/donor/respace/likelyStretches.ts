import { type AxisFrame, extentOf } from '../spans/axisFrame.ts';
import { eachLeaning, spansIn } from '../spans/plainSpans.ts';
import { type NamedFeature, stretchOf } from './featureChange.ts';

/** A stretch that would take up a change with a trace. */
export interface LikelyStretch {
  readonly from: number;
  readonly to: number;
  /** The change over the length of the stretch. */
  readonly strain: number;
  /** Area of the facets in it that are neither parallel nor square to the axis: they come to lean otherwise. */
  readonly slantedArea: number;
  /** Largest difference between the sections' areas in it if its walls only lean a little; null otherwise. */
  readonly mismatchArea: number | null;
}

/** Walls that lean at most so, degrees, are drafted walls rather than a shape; common practice when moulding, no source. */
const DRAFT = 3;

/** Cells along the extent in which slanted area is counted. */
const CELLS = 1000;

/** Stretches between the ends of named features, between drafted walls, and the whole; each longer than the change with
 *  the rest left. Those that bend the least area first. */
export function likelyStretches(
  triangles: Uint32Array,
  frame: AxisFrame,
  by: number,
  features: readonly NamedFeature[],
  rest: number,
): readonly LikelyStretch[] {
  const [low, high] = extentOf(frame);
  const slanted = slantedAreas(triangles, frame, low, high);
  const within = (from: number, to: number): number => {
    const at = (level: number): number => ((level - low) / (high - low)) * CELLS;
    let sum = 0;
    for (let k = Math.floor(at(from)); k < Math.min(CELLS, Math.ceil(at(to))); k++)
      sum += slanted[k]! * (Math.min(k + 1, at(to)) - Math.max(k, at(from)));
    return sum;
  };
  const drafted = spansIn(triangles, frame, { angle: DRAFT, rest }).map(({ from, to, mismatchArea }) => ({
    ...{ from, to, mismatchArea },
  }));
  const ends = features.flatMap((feature) => [...stretchOf(feature, frame.axis)]);
  const levels = [low, ...ends.filter((level) => level > low && level < high), high].sort((a, b) => a - b);
  const between = levels.slice(1).map((to, k) => ({ from: levels[k]!, to, mismatchArea: null }));
  const known = new Set<string>();
  return [...drafted, ...between, { from: low, to: high, mismatchArea: null }]
    .filter(({ from, to }) => to - from > rest && to - from + by >= rest)
    .filter(({ from, to }) => {
      const key = `${from} ${to}`;
      return !known.has(key) && known.add(key);
    })
    .map((stretch) => ({
      ...stretch,
      strain: by / (stretch.to - stretch.from),
      slantedArea: within(stretch.from, stretch.to),
    }))
    .sort(
      (a, b) => a.slantedArea * Math.abs(a.strain) - b.slantedArea * Math.abs(b.strain) || a.from - b.from,
    );
}

/** Cosine of 0.5 degrees: facets this close to square to the axis only move. */
const SQUARE = Math.cos(Math.PI / 360);

function slantedAreas(triangles: Uint32Array, frame: AxisFrame, low: number, high: number): Float64Array {
  const areas = new Float64Array(CELLS);
  const { coordinates: c, u, v, h } = frame;
  eachLeaning(triangles, frame, 0, (bottom, top, t) => {
    const [p, q, r] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [bu, bv, bh] = [c[q + u]! - c[p + u]!, c[q + v]! - c[p + v]!, c[q + h]! - c[p + h]!];
    const [du, dv, dh] = [c[r + u]! - c[p + u]!, c[r + v]! - c[p + v]!, c[r + h]! - c[p + h]!];
    const seen = Math.abs(bu * dv - bv * du);
    const whole = Math.hypot(bv * dh - bh * dv, bh * du - bu * dh, seen);
    if (seen >= SQUARE * whole) return;
    // Spread evenly over the levels it crosses, which is near enough for a ranking.
    const [from, to] = [((bottom - low) / (high - low)) * CELLS, ((top - low) / (high - low)) * CELLS];
    for (let k = Math.floor(from); k < Math.min(CELLS, Math.ceil(to)); k++)
      areas[k]! += (whole / 2) * ((Math.min(k + 1, to) - Math.max(k, from)) / (to - from));
  });
  return areas;
}
