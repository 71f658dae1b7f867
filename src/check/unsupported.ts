import { cleanReach } from '../printer/cleanReach.ts';
import { withScope } from '../solid/kernel.ts';
import type { Layer } from '../solid/layers.ts';
import type { Contour, Vec2, Vec3 } from '../solid/vector.ts';
import type { CheckContext } from './context.ts';
import { contains, distanceToSides } from './polygons.ts';

/** Material printed past the layer below. Heights and lengths in mm, coordinates of the bed. */
export interface Overhang {
  /** How far it reaches from what carries it: the layer below, or a bridge beside it. */
  readonly reach: number;
  /** Furthest reach that prints clean there. */
  readonly allowed: number;
  /** Nothing carries it on any side. */
  readonly adrift: boolean;
  readonly at: Vec3;
}

/** Material printed across open air between two sides that carry it. */
export interface Bridge {
  /** From one carrying edge to the other, mm. */
  readonly span: number;
  readonly at: Vec3;
}

export interface Unsupported {
  readonly overhangs: readonly Overhang[];
  readonly bridges: readonly Bridge[];
  /** Furthest reach past the layer below that stays within what prints clean, where and of how much; null when no
   *  layer reaches past the one below. */
  readonly clean: Overhang | null;
}

/** Overhang below which nothing is said, mm: facets and rounding are worth that much. */
const SLIVER = 0.02;
/** Area below which nothing is said, mm^2: a tenth of a dot of the nozzle. */
const SPECK = 0.01;
/** A corner of an overhang is allowed what its two sides are: the offset keeps square corners. */
const MITRE = 2;

/** Share of a stretch that strands must carry across for it to be a bridge all of it. */
const BRIDGED = 0.95;
/** Below this share a stretch is no bridge at all: strands cut across its corners. */
const BRIDGED_AT_ALL = 0.05;
/** Strands tried across each stretch, in each direction. */
const STRANDS = 15;
/** Directions tried in any case, radians apart; with them, straight across the longest carrying edges. */
const DIRECTIONS = Math.PI / 6;
const CARRYING_EDGES = 6;
/** An edge this close to the outline of its layer is free, mm. */
const ON_OUTLINE = 1e-3;

/** What is printed without enough below it, layer by layer: what lies further out than the layer below carries at
 *  the printer's overhang angle. */
export function unsupportedOf({ layers, printer, scope, known }: CheckContext): Unsupported {
  const { overhang, firstLayerSpread } = printer;
  const angle = { overhang, spread: Math.max(0, firstLayerSpread.value) };
  return known.of('unsupported', { layers, ...angle }, () => find(layers, angle, scope.kernel));
}

function find(
  layers: readonly Layer[],
  { overhang, spread: firstSpread }: { readonly overhang: number; readonly spread: number },
  kernel: CheckContext['scope']['kernel'],
): Unsupported {
  const overhangs: Overhang[] = [];
  const bridges: Bridge[] = [];
  let clean: Overhang | null = null;
  for (let k = 1; k < layers.length; k++) {
    const [below, layer] = [layers[k - 1]!, layers[k]!];
    if (layer.section === below.section) continue;
    // The sections were cut at mid-height, so that is the height in which the outline went out.
    const rise = (layer.top + layer.bottom - below.top - below.bottom) / 2;
    const allowed = cleanReach(rise, overhang);
    // The first layer prints wider than drawn, and may be drawn in by as much.
    const spread = k === 1 ? firstSpread : 0;
    const pieces = piecesBeyond(kernel, layer, below, allowed + spread + SLIVER);
    for (const piece of pieces) {
      const stretch = carried(piece, layer.contours, below.contours);
      if (stretch.bridge !== null)
        bridges.push({
          span: stretch.bridge.length + 2 * (allowed + SLIVER),
          at: [...stretch.bridge.middle, layer.bottom],
        });
      if (stretch.hang !== null)
        overhangs.push({
          reach: stretch.hang.reach - spread,
          allowed,
          adrift: stretch.adrift,
          at: [...stretch.hang.at, layer.bottom],
        });
    }
    if (pieces.length > 0) continue;
    for (const point of layer.contours.flat()) {
      if (contains(below.contours, point)) continue;
      const reach = distanceToSides(point, below.contours) - spread;
      if (reach > SLIVER && reach <= allowed + SLIVER && reach > (clean?.reach ?? 0))
        clean = { reach, allowed, adrift: false, at: [...point, layer.bottom] };
    }
  }
  return { overhangs, bridges, clean };
}

function piecesBeyond(
  kernel: CheckContext['scope']['kernel'],
  layer: Layer,
  below: Layer,
  reach: number,
): Contour[][] {
  return withScope(kernel, (scope) => {
    const carrying = scope.keep(below.section.offset(reach, 'Miter', MITRE));
    const beyond = scope.keep(layer.section.subtract(carrying));
    if (beyond.area() < SPECK) return [];
    return scope
      .keepAll(beyond.decompose())
      .filter((piece) => piece.area() >= SPECK)
      .map((piece) => piece.toPolygons() as Contour[]);
  });
}

interface Stretch {
  readonly adrift: boolean;
  readonly bridge: { readonly length: number; readonly middle: Vec2 } | null;
  readonly hang: { readonly reach: number; readonly at: Vec2 } | null;
}

/** One line of a printed strand across a stretch, in coordinates turned so that it runs along the first axis. */
interface Strand {
  readonly from: number;
  readonly to: number;
  readonly row: number;
  /** Both ends lie on carrying edges. */
  readonly held: boolean;
}

/** Judges one stretch over open air: a bridge when strands in some direction are held at both ends, an overhang as
 *  far as they are not. The direction that holds most is taken, of equals the one with the shortest strands. */
function carried(piece: readonly Contour[], outline: readonly Contour[], below: readonly Contour[]): Stretch {
  const edges = edgesOf(piece, outline);
  const directions = edges.some((edge) => edge.carries) ? directionsFor(edges) : [];
  let best = { share: 0, longest: Infinity, direction: 0, strands: [] as Strand[], gap: 0 };
  for (const direction of directions) {
    const { strands, gap } = strandsAcross(edges, direction);
    const sum = (of: readonly Strand[]) => of.reduce((total, { from, to }) => total + to - from, 0);
    const held = strands.filter((strand) => strand.held);
    const share = held.length === 0 ? 0 : sum(held) / sum(strands);
    const longest = Math.max(0, ...held.map(({ from, to }) => to - from));
    const better = share >= BRIDGED && best.share >= BRIDGED ? longest < best.longest : share > best.share;
    if (better) best = { share, longest, direction, strands, gap };
  }
  const [cos, sin] = [Math.cos(best.direction), Math.sin(best.direction)];
  const back = (u: number, v: number): Vec2 => [u * cos - v * sin, u * sin + v * cos];
  const held = best.share < BRIDGED_AT_ALL ? [] : best.strands.filter((strand) => strand.held);
  const [first, ...rest] = held;
  const longest = rest.reduce((a, b) => (b && a && b.to - b.from > a.to - a.from ? b : a), first);
  const bridge = longest && {
    length: longest.to - longest.from,
    middle: back((longest.from + longest.to) / 2, longest.row),
  };
  const adrift = directions.length === 0;
  if (best.share >= BRIDGED) return { adrift, bridge: bridge ?? null, hang: null };

  const places: Vec2[] = piece.flat();
  for (const { from, to, row } of best.strands.filter((strand) => !strand.held))
    places.push(back(from, row), back((from + to) / 2, row), back(to, row));
  let hang = { reach: 0, at: places[0]! };
  for (const at of places) {
    const reach = Math.min(
      below.length === 0 ? acrossOf(places) : distanceToSides(at, below),
      toHeld(held, best.gap, [at[0] * cos + at[1] * sin, at[1] * cos - at[0] * sin]),
    );
    if (reach > hang.reach) hang = { reach, at };
  }
  return { adrift, bridge: bridge ?? null, hang };
}

/** Distance across the strands to the nearest one that is held, in turned coordinates, mm. */
function toHeld(held: readonly Strand[], gap: number, [u, v]: Vec2): number {
  let least = Infinity;
  for (const { from, to, row } of held)
    if (u >= from - gap && u <= to + gap) least = Math.min(least, Math.max(0, Math.abs(v - row) - gap / 2));
  return least;
}

/** Diagonal of the box around points, mm: what hangs where there is nothing below at all. */
function acrossOf(points: readonly Vec2[]): number {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return Math.hypot(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
}

interface Edge {
  readonly a: Vec2;
  readonly b: Vec2;
  /** The material goes on beyond it, carried by the layer below. */
  readonly carries: boolean;
}

/** A stretch ends where its layer's outline does, or where the layer below takes over. */
function edgesOf(piece: readonly Contour[], outline: readonly Contour[]): Edge[] {
  return piece.flatMap((contour) =>
    contour.map((a, i) => {
      const b = contour[(i + 1) % contour.length]!;
      const middle: Vec2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      return { a, b, carries: distanceToSides(middle, outline) > ON_OUTLINE };
    }),
  );
}

function directionsFor(edges: readonly Edge[]): number[] {
  const long = ({ a, b }: Edge) => Math.hypot(b[0] - a[0], b[1] - a[1]);
  const across = edges
    .filter((edge) => edge.carries)
    .toSorted((p, q) => long(q) - long(p))
    .slice(0, CARRYING_EDGES)
    .map(({ a, b }) => Math.atan2(b[0] - a[0], a[1] - b[1]));
  const even = Array.from({ length: Math.round(Math.PI / DIRECTIONS) }, (_, k) => k * DIRECTIONS);
  return [...across, ...even];
}

function strandsAcross(edges: readonly Edge[], direction: number): { strands: Strand[]; gap: number } {
  const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
  const turned = edges.map(({ a, b, carries }) => ({
    ...{ au: a[0] * cos + a[1] * sin, av: a[1] * cos - a[0] * sin },
    ...{ bu: b[0] * cos + b[1] * sin, bv: b[1] * cos - b[0] * sin },
    carries,
  }));
  const low = Math.min(...turned.map(({ av }) => av));
  const high = Math.max(...turned.map(({ av }) => av));
  const gap = (high - low) / STRANDS;
  const strands: Strand[] = [];
  for (let k = 0; k < STRANDS; k++) {
    const row = low + (k + 0.5) * gap;
    const ends: { u: number; carries: boolean }[] = [];
    for (const { au, av, bu, bv, carries } of turned)
      if (av > row !== bv > row) ends.push({ u: au + ((row - av) / (bv - av)) * (bu - au), carries });
    ends.sort((p, q) => p.u - q.u);
    for (let i = 0; i + 1 < ends.length; i += 2) {
      const [from, to] = [ends[i]!, ends[i + 1]!];
      strands.push({ from: from.u, to: to.u, row, held: from.carries && to.carries });
    }
  }
  return { strands, gap };
}
