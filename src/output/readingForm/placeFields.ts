import type { Vec2 } from '../../solid/vector.ts';
import {
  type Box,
  boxAround,
  type DimensionGeometry,
  dimensionGeometry,
  dimensioning,
  reachOf,
  type Segment,
  segmentsCross,
} from '../drawing/index.ts';

/** A dimension that wants a line and a field to type into. Paper, mm, y up. */
export interface FieldWanted {
  readonly anchors: readonly [Readonly<Vec2>, Readonly<Vec2>];
}

/** Where the line of a dimension runs and its field stands. */
export interface FieldPlace {
  readonly geometry: DimensionGeometry;
  /** On the line, or at its end where the line is too short. */
  readonly box: Box;
}

/** Places in the order asked for; crowded when no way was found to keep all marks apart. */
export interface PlacedFields {
  readonly places: readonly FieldPlace[];
  readonly crowded: boolean;
}

/** Distance of the first dimension line from the outline, and between places tried, mm. */
const FIRST = 8;
const LANE = 4;
const LANES = 22;
/** Times each is placed: first beside those before it, then beside all the others. */
const ROUNDS = 4;
/** Along a line that is long enough, where the field may stand: in the middle first. */
const ALONG = [0.5, 0.3, 0.7] as const;
/** Kept clear around a field, and between lines, mm. */
const CLEAR = 1.2;
/** What it costs, as mm of extension line: lines that cross, a field beside its line, not in the middle, over the drawing;
 *  and marks that touch, which only happens where nothing else is left. */
const cost = { crossing: 15, beside: 5, aside: 3, over: 60, touching: 500 } as const;

/** Finds a place outside of `outline` for each dimension and its field of `field` mm, so that no field stands on another,
 *  on a line or on the drawing. Greedy, short ones first, and again once all stand; good for the dozen of a sheet, not promised to be best. Comes
 *  back in the order given. */
export function placeFields(
  wanted: readonly FieldWanted[],
  outline: Box,
  field: readonly [number, number],
): PlacedFields {
  const order = wanted.map((_, k) => k).sort((i, j) => lengthOf(wanted[i]!) - lengthOf(wanted[j]!) || i - j);
  const placed = new Map<number, FieldPlace>();
  for (let round = 0; round < ROUNDS; round++) {
    for (const k of order) {
      placed.delete(k);
      placed.set(k, cheapest(wanted[k]!, outline, field, [...placed.values()]));
    }
  }
  const places = wanted.map((_, k) => placed.get(k)!);
  const others = (k: number) => places.filter((_, other) => other !== k);
  const crowded = places.some((place, k) => conflicts(place, others(k), outline) >= cost.touching);
  return { places, crowded };
}

const lengthOf = ({ anchors: [a, b] }: FieldWanted): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

function cheapest(
  wanted: FieldWanted,
  outline: Box,
  field: readonly [number, number],
  placed: readonly FieldPlace[],
): FieldPlace {
  let best: { total: number; place: FieldPlace } | undefined;
  for (const side of [1, -1]) {
    const reach = reachOf(wanted.anchors, outline, side);
    for (let lane = 0; lane < LANES; lane++) {
      const offset = side * (reach + FIRST + lane * LANE);
      // What lies further out than the best so far can only be dearer.
      if (best && Math.abs(offset) > best.total) break;
      for (const { place, extra } of placesOn(wanted, offset, field)) {
        const total = Math.abs(offset) + extra + conflicts(place, placed, outline);
        if (!best || total < best.total - 1e-9) best = { total, place };
      }
    }
  }
  return best!.place;
}

/** The ways a field can stand on a dimension line at this distance. */
function placesOn(
  { anchors }: FieldWanted,
  offset: number,
  [width, height]: readonly [number, number],
): { readonly place: FieldPlace; readonly extra: number }[] {
  const plain = dimensionGeometry({ anchors, offset });
  const [ux, uy] = plain.along;
  const [a, b] = plain.ends;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  // Half of what the field covers of its line.
  const half = Math.min(width / 2 / Math.max(1e-9, Math.abs(ux)), height / 2 / Math.max(1e-9, Math.abs(uy)));
  const boxAt = (x: number, y: number): Box => ({
    min: [x - width / 2, y - height / 2],
    max: [x + width / 2, y + height / 2],
  });
  if (length >= 2 * (half + dimensioning.arrowLength)) {
    const geometry = { ...plain, inside: true, line: plain.ends };
    return ALONG.filter(
      (t) => Math.min(t, 1 - t) * length >= half + dimensioning.arrowLength || t === 0.5,
    ).map((t) => ({
      place: { geometry, box: boxAt(a[0] + t * length * ux, a[1] + t * length * uy) },
      extra: t === 0.5 ? 0 : cost.aside,
    }));
  }
  const { tail } = dimensioning;
  const inside = length >= 2 * dimensioning.arrowLength + 1;
  return [1, -1].map((way) => {
    const end = way > 0 ? b : a;
    const out = (inside ? 1.5 : tail) + half;
    const line: Segment = inside
      ? [a, b]
      : [
          [a[0] - tail * ux, a[1] - tail * uy],
          [b[0] + tail * ux, b[1] + tail * uy],
        ];
    return {
      place: {
        geometry: { ...plain, inside, line },
        box: boxAt(end[0] + way * out * ux, end[1] + way * out * uy),
      },
      extra: cost.beside + (way > 0 ? 0 : 0.5),
    };
  });
}

/** What a place costs beside those there are. */
function conflicts(own: FieldPlace, placed: readonly FieldPlace[], outline: Box): number {
  let total = overlap(own.box, outline, 0) ? cost.over : 0;
  const mine = [own.geometry.line, ...own.geometry.extensions];
  for (const other of placed) {
    const theirs = [other.geometry.line, ...other.geometry.extensions];
    if (overlap(own.box, other.box, CLEAR)) total += cost.touching;
    if (theirs.some((line) => passes(line, own.box))) total += cost.touching;
    if (mine.some((line) => passes(line, other.box))) total += cost.touching;
    if (near(own.geometry.line, other.geometry.line)) total += cost.touching;
    for (const one of mine) for (const two of theirs) if (segmentsCross(one, two)) total += cost.crossing;
  }
  return total;
}

const overlap = (a: Box, b: Box, clear: number): boolean =>
  [0, 1].every((k) => a.min[k]! - clear < b.max[k]! && b.min[k]! - clear < a.max[k]!);

/** Whether a line runs through a box, or so near that it seems to. */
function passes([p, q]: Segment, { min, max }: Box): boolean {
  let [from, to] = [0, 1];
  for (const k of [0, 1] as const) {
    const d = q[k] - p[k];
    const [lo, hi] = [min[k] - CLEAR, max[k] + CLEAR];
    if (Math.abs(d) < 1e-12) {
      if (p[k] < lo || p[k] > hi) return false;
      continue;
    }
    const [s, t] = [(lo - p[k]) / d, (hi - p[k]) / d];
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
  }
  return from <= to;
}

/** Dimension lines that run along each other too near to be told apart. */
function near([a, b]: Segment, [c, d]: Segment): boolean {
  const box = boxAround([a, b].map(([x, y]) => [x, y] as const));
  const other = boxAround([c, d].map(([x, y]) => [x, y] as const));
  return overlap(box, other, CLEAR) && !segmentsCross([a, b], [c, d]);
}
