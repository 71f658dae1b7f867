import { add, cross, dot, lengthOf, times, unit, type Vec2, type Vec3 } from '../../solid/vector.ts';
import { project, type Segment, type View } from '../drawing/index.ts';
import { distanceToLine } from './lineIndex.ts';
import type { SizeAsked } from './partDrawingInput.ts';
import type { SeenView } from './seenView.ts';

/** A size to be drawn. */
export interface DrawableSize extends SizeAsked {
  readonly round: boolean;
  /** Whether its ends are axes of hollows, at `at` and at the other end, rather than faces. */
  readonly centres: readonly [boolean, boolean];
}

/** One end of a size as a view shows it, mm at 1:1: where it lies along the size, and the stretches of edges there, across it. */
export interface SizeEnd {
  readonly along: number;
  readonly edges: readonly (readonly [number, number])[];
}

/** A size as a view can show it. */
export interface ShownSize {
  /** Unit vector on the paper along which it is measured; `across` is its left-hand normal. */
  readonly along: Readonly<Vec2>;
  readonly ends: readonly [SizeEnd, SizeEnd];
  /** 3: both ends are edges that are seen; 2: one of them is; 1: at hidden edges; more where the form shows best, as a hole does along
   *  its axis. */
  readonly merit: number;
  /** Middle and radius, where it is a circle in this view. */
  readonly circle: { readonly middle: Readonly<Vec2>; readonly radius: number } | null;
}

/** A size leaning out of the paper by less than this, as a sine, is seen in full: it shows short by less than 0.01 %. */
const LEAN = 0.01;
/** Edges this near to where a size ends are its ends, mm. */
const NEAR = 0.03;

/** How a view can show a size: not at all when it is seen foreshortened; round ones along their axis in two directions. */
export function shownSizes(size: DrawableSize, seen: SeenView): ShownSize[] {
  const { view } = seen;
  const { at, axis, across, drawn, kind, round } = size;
  const alongAxis = Math.abs(dot(view.toward, axis)) > 1 - LEAN;
  const spans: Readonly<Vec3>[] = !round
    ? [across]
    : alongAxis
      ? [view.right, view.up]
      : [unit(cross(axis, view.toward))];
  return spans
    .filter((span) => Math.abs(dot(view.toward, span)) < LEAN && lengthOf(span) > 0)
    .map((span): ShownSize => {
      const [from, to]: [Vec3, Vec3] =
        kind === 'step'
          ? [[...at], add(at, times(span, drawn))]
          : [add(at, times(span, -drawn / 2)), add(at, times(span, drawn / 2))];
      const along = unit2(project(view, span));
      const ends = [from, to].map((end, k) =>
        endOf(project(view, end), along, seen, reachOf(size, view), size.centres[k]!),
      ) as [Found, Found];
      const plain = ends.reduce((sum, { seen: visible }) => sum + visible, 1);
      const [x, y] = project(view, at);
      const isCircle = round && alongAxis;
      if (isCircle && !isCircleSeen([x, y], drawn / 2, seen))
        return { along, ends: [ends[0].end, ends[1].end], merit: 1, circle: null };
      const isForm = alongAxis && (kind === 'bore' || kind === 'slot');
      return {
        along,
        ends: [ends[0].end, ends[1].end],
        merit: plain + (isForm ? 1 : 0),
        circle: isCircle ? { middle: [x, y], radius: drawn / 2 } : null,
      };
    });
}

/** Points looked for around a circle, and how many of them must lie on lines that are seen. */
const [AROUND, FEWEST] = [24, 14];

function isCircleSeen([x, y]: Readonly<Vec2>, radius: number, { visible }: SeenView): boolean {
  // Facets run inside or outside of their circle; coarse ones of models from elsewhere by a hundredth of it.
  const near = Math.max(NEAR, 0.02 * radius);
  let met = 0;
  for (let k = 0; k < AROUND; k++) {
    const angle = (2 * Math.PI * k) / AROUND;
    const p: Vec2 = [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    if (visible.some((line) => distanceToLine(p, line) < near)) met++;
  }
  return met >= FEWEST;
}

/** How far along its edges a size may be taken from, mm: along the feature where that lies in the paper. */
function reachOf({ axis, length, drawn }: DrawableSize, view: View): number {
  const lies = Math.sqrt(Math.max(0, 1 - dot(axis, view.toward) ** 2));
  return Math.max((lies * length) / 2, (1 - lies) * drawn) + NEAR;
}

interface Found {
  readonly end: SizeEnd;
  /** 1 where an edge is seen, 0.5 for an axis, 0 otherwise. */
  readonly seen: number;
}

function endOf(
  [x, y]: readonly [number, number, ...number[]],
  [c, s]: Readonly<Vec2>,
  { visible, hidden }: SeenView,
  reach: number,
  centre: boolean,
): Found {
  const along = x * c + y * s;
  const level = y * c - x * s;
  if (centre) return { end: { along, edges: [[level, level]] }, seen: 0.9 };
  const edges = (lines: readonly Segment[], within: number): (readonly [number, number])[] =>
    lines.flatMap(([p, q]) => {
      const [u, w] = [p[0] * c + p[1] * s - along, q[0] * c + q[1] * s - along];
      const [near, far] = [Math.abs(u) < NEAR, Math.abs(w) < NEAR];
      if (!near && !far) return [];
      const [from, to] = [p, q].map((r) => r[1] * c - r[0] * s) as Vec2;
      const ends = near && far ? [from, to] : near ? [from, from] : [to, to];
      const [low, high] = [Math.min(...ends), Math.max(...ends)];
      return low > level + within || high < level - within ? [] : [[low, high] as const];
    });
  for (const [lines, within, merit] of [
    [visible, reach, 1],
    [visible, Infinity, 0.7],
    [hidden, reach, 0.1],
  ] as const) {
    const found = edges(lines, within);
    if (found.length > 0)
      return { end: { along, edges: within === Infinity ? nearest(found, level) : found }, seen: merit };
  }
  return { end: { along, edges: [[level, level]] }, seen: 0 };
}

function nearest(
  edges: readonly (readonly [number, number])[],
  level: number,
): (readonly [number, number])[] {
  const away = ([low, high]: readonly [number, number]): number => Math.max(low - level, level - high, 0);
  const least = Math.min(...edges.map(away));
  return edges.filter((edge) => away(edge) <= least + NEAR);
}

const unit2 = ([x, y]: readonly [number, number, ...number[]]): Vec2 => {
  const length = Math.hypot(x, y);
  return [x / length, y / length];
};
