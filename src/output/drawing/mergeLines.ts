import type { Vec2 } from '../../solid/vector.ts';
import { listAt } from './listAt.ts';
import type { LineView, Segment } from './view.ts';

/** Points this near to a line lie on it, and gaps this small are closed, mm. A fifth of the finest line step a
 *  printed drawing can show, far above rounding. */
const ON_LINE = 2e-3;
/** Shorter pieces than this cannot be drawn, mm. */
const SHORTEST = 1e-3;

type Interval = [number, number];

interface Line {
  readonly origin: Vec2;
  readonly along: Vec2;
  readonly visible: Interval[];
  readonly hidden: Interval[];
}

/** Joins pieces that lie in one line, and takes away what is hidden behind a visible line.
 *  The order of what comes back depends on the pieces alone. */
export function mergeLines(visible: readonly Segment[], hidden: readonly Segment[]): LineView {
  const lines = new Lines();
  const pieces = [
    ...visible.map((segment) => ({ segment, seen: true })),
    ...hidden.map((segment) => ({ segment, seen: false })),
  ]
    .map((piece) => ({ ...piece, length: lengthOf(piece.segment) }))
    .filter(({ length }) => length > 1e-9)
    // The longest piece knows best where its line runs.
    .sort((a, b) => b.length - a.length);
  for (const { segment, seen } of pieces) lines.add(segment, seen);
  const out: { visible: Segment[]; hidden: Segment[] } = { visible: [], hidden: [] };
  for (const line of lines.all) {
    const seen = joined(line.visible);
    const at = (t: number): Vec2 => [line.origin[0] + t * line.along[0], line.origin[1] + t * line.along[1]];
    for (const [from, to] of seen) out.visible.push([at(from), at(to)]);
    for (const [from, to] of without(joined(line.hidden), seen)) out.hidden.push([at(from), at(to)]);
  }
  return out;
}

const lengthOf = ([p, q]: Segment): number => Math.hypot(q[0] - p[0], q[1] - p[1]);

/** Lines found so far, to be looked up by direction and distance from the origin. */
class Lines {
  readonly all: Line[] = [];
  readonly #buckets = new Map<string, Line[]>();
  static readonly #ANGLES = 1024;
  static readonly #STEP = 0.02;

  add(segment: Segment, seen: boolean): void {
    const [p, q] = segment;
    const { angle, distance } = Lines.#place(segment);
    let line = this.#near(angle, distance).find(
      (known) => offLine(known, p) < ON_LINE && offLine(known, q) < ON_LINE,
    );
    if (!line) {
      const length = lengthOf(segment);
      line = {
        origin: [p[0], p[1]],
        along: [(q[0] - p[0]) / length, (q[1] - p[1]) / length],
        visible: [],
        hidden: [],
      };
      this.all.push(line);
      listAt(this.#buckets, `${angle},${distance}`).push(line);
    }
    const [s, t] = [alongLine(line, p), alongLine(line, q)];
    (seen ? line.visible : line.hidden).push(s < t ? [s, t] : [t, s]);
  }

  *#nearKeys(angle: number, distance: number): Generator<string> {
    const n = Lines.#ANGLES;
    for (let a = angle - 1; a <= angle + 1; a++) {
      // Past half a turn the same line comes back with its distance on the other side.
      const wrapped = a < 0 || a >= n;
      for (let d = distance - 1; d <= distance + 1; d++)
        yield `${wrapped ? (a + n) % n : a},${wrapped ? -d : d}`;
    }
  }

  #near(angle: number, distance: number): Line[] {
    return [...this.#nearKeys(angle, distance)].flatMap((key) => this.#buckets.get(key) ?? []);
  }

  static #place([p, q]: Segment): { angle: number; distance: number } {
    let theta = Math.atan2(q[1] - p[1], q[0] - p[0]);
    if (theta < 0) theta += Math.PI;
    const angle = Math.min(Lines.#ANGLES - 1, Math.floor((theta / Math.PI) * Lines.#ANGLES));
    const side = theta >= Math.PI ? theta - Math.PI : theta;
    const distance = Math.round((p[1] * Math.cos(side) - p[0] * Math.sin(side)) / Lines.#STEP);
    return { angle: theta >= Math.PI ? 0 : angle, distance };
  }
}

const offLine = ({ origin, along }: Line, p: Readonly<Vec2>): number =>
  Math.abs((p[0] - origin[0]) * along[1] - (p[1] - origin[1]) * along[0]);

const alongLine = ({ origin, along }: Line, p: Readonly<Vec2>): number =>
  (p[0] - origin[0]) * along[0] + (p[1] - origin[1]) * along[1];

function joined(intervals: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  for (const [from, to] of [...intervals].sort((a, b) => a[0] - b[0] || a[1] - b[1])) {
    const last = out.at(-1);
    if (last && from <= last[1] + ON_LINE) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out.filter(([from, to]) => to - from > SHORTEST);
}

function without(intervals: readonly Interval[], taken: readonly Interval[]): Interval[] {
  const out: Interval[] = [];
  for (const [from, to] of intervals) {
    let start = from;
    for (const [a, b] of taken) {
      if (b <= start || a >= to) continue;
      if (a > start + ON_LINE) out.push([start, a]);
      start = Math.max(start, b);
    }
    if (to - start > ON_LINE) out.push([start, to]);
  }
  return out;
}
