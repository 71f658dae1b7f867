import { add, cross, dot, lengthOf, subtract, times, unit, type Vec3 } from '../../solid/vector.ts';
import { facetsOf } from './facetsOf.ts';
import { across } from './fitCylinder.ts';
import { freeAlong } from './freeAlong.ts';
import { inOrder } from './inOrder.ts';
import { positiveWay } from './positiveWay.ts';
import type { Surface } from './surfaceOf.ts';
import type { Arc, Pocket } from './types.ts';

/** A straight inner corner between two flat faces. */
interface Corner {
  readonly facets: readonly [number, number];
  readonly direction: Vec3;
  readonly at: Vec3;
  /** Ends along `direction` from `at`. */
  readonly from: number;
  readonly to: number;
}

/** Inner corners of pockets turn by 60 or 90 degrees, with a little either way; radians. */
const CORNER = { least: 0.95, most: 1.65 } as const;
const PARALLEL = 1e-3;
/** Sides and angles of a regular hexagon or a rectangle may be off by this share. */
const UNEVEN = 0.01;

/** More than these are a lattice, and each costs a look through the whole mesh. */
const MOST_POCKETS = 400;

/** Hexagonal and rectangular pockets with sharp corners, and slots with round ends: walls that close around. A pocket without a
 *  mouth, inside the part, is left out, and so is what comes after the first 400. */
export function pocketsOf(surface: Surface, arcs: readonly Arc[]): readonly Pocket[] {
  const facet = facetsOf(surface);
  const found = [...prismatic(surface, facet), ...slots(surface, facet, arcs)];
  return inOrder(found, ({ width }) => width, surface.diagonal).map((pocket, i) => ({
    ...pocket,
    id: `pocket${i + 1}`,
  }));
}

function prismatic(surface: Surface, facet: Int32Array): Pocket[] {
  const corners = innerCorners(surface, facet);
  const atFacet = new Map<number, Corner[]>();
  for (const corner of corners)
    for (const f of corner.facets) {
      const list = atFacet.get(f);
      if (list === undefined) atFacet.set(f, [corner]);
      else list.push(corner);
    }
  const used = new Set<Corner>();
  const found: Pocket[] = [];
  for (const start of corners) {
    if (found.length >= MOST_POCKETS) break;
    if (used.has(start)) continue;
    const loop = loopFrom(start, atFacet);
    if (loop === undefined) continue;
    const pocket = pocketOf(surface, loop);
    if (pocket === undefined) continue;
    for (const corner of loop) used.add(corner);
    found.push(pocket);
  }
  return found;
}

/** One entry a pair of faces and line, however many edges the corner is split into. */
function innerCorners({ mesh, mates, bends, flat }: Surface, facet: Int32Array): Corner[] {
  const { positions: p, triangles } = mesh;
  const point = (v: number): Vec3 => [p[3 * v]!, p[3 * v + 1]!, p[3 * v + 2]!];
  const known = new Map<string, Corner>();
  for (let h = 0; h < mates.length; h++) {
    const bend = -bends[h]!;
    if (mates[h]! < h || flat[h] || bend < CORNER.least || bend > CORNER.most) continue;
    const [f, g] = [facet[Math.floor(h / 3)]!, facet[Math.floor(mates[h]! / 3)]!];
    const [a, b] = [point(triangles[h]!), point(triangles[h % 3 === 2 ? h - 2 : h + 1]!)];
    const length = lengthOf(subtract(b, a));
    if (length === 0) continue;
    const key = f < g ? `${f},${g}` : `${g},${f}`;
    const before = known.get(key);
    if (before === undefined) {
      const direction = times(subtract(b, a), 1 / length);
      known.set(key, { facets: [f, g], direction, at: a, from: 0, to: length });
      continue;
    }
    const [s, t] = [
      dot(subtract(a, before.at), before.direction),
      dot(subtract(b, before.at), before.direction),
    ];
    known.set(key, {
      ...before,
      from: Math.min(before.from, s, t),
      to: Math.max(before.to, s, t),
    });
  }
  return [...known.values()];
}

/** Corners met when going around from face to face along parallel inner corners, back to the first; undefined when
 *  the way ends or forks. */
function loopFrom(start: Corner, atFacet: ReadonlyMap<number, readonly Corner[]>): Corner[] | undefined {
  const loop = [start];
  let [at, face] = [start, start.facets[1]];
  while (loop.length <= 6) {
    const others = atFacet
      .get(face)!
      .filter((corner) => corner !== at && lengthOf(cross(corner.direction, start.direction)) < PARALLEL);
    const [next] = others;
    if (next === undefined || others.length > 1) return undefined;
    if (next === start) return loop.length > 3 ? loop : undefined;
    loop.push(next);
    face = next.facets[0] === face ? next.facets[1] : next.facets[0];
    at = next;
  }
  return undefined;
}

function pocketOf(surface: Surface, loop: readonly Corner[]): Pocket | undefined {
  if (loop.length !== 4 && loop.length !== 6) return undefined;
  const axis = positiveWay(loop[0]!.direction);
  const heights = loop.flatMap(({ at, direction, from, to }) =>
    [from, to].map((s) => dot(add(at, times(direction, s)), axis)),
  );
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const level = (low + high) / 2;
  const points = loop.map(({ at }) => add(at, times(axis, level - dot(at, axis))));
  const sides = points.map((point, i) => subtract(points[(i + 1) % points.length]!, point));
  const lengths = sides.map(lengthOf);
  if (Math.min(...lengths) === 0) return undefined;
  const turns = sides.map((side, i) => {
    const j = (i + 1) % sides.length;
    return dot(side, sides[j]!) / lengths[i]! / lengths[j]!;
  });
  const at = times(points.reduce(add), 1 / points.length);
  const common = { id: '', axis, at, depth: high - low };
  const mouths = openEnds(surface, at, axis, high - low);
  if (mouths === 0) return undefined;
  const through = mouths === 2;
  if (loop.length === 4) {
    if (turns.some((turn) => Math.abs(turn) > UNEVEN)) return undefined;
    const [a, b] = [lengths[0]!, lengths[1]!];
    const along = positiveWay(unit(sides[a >= b ? 0 : 1]!));
    return { ...common, kind: 'rectangle', width: Math.min(a, b), length: Math.max(a, b), along, through };
  }
  const mean = lengths.reduce((sum, l) => sum + l, 0) / 6;
  const regular =
    turns.every((turn) => Math.abs(turn - 0.5) < 2 * UNEVEN) &&
    lengths.every((length) => Math.abs(length / mean - 1) < UNEVEN);
  if (!regular) return undefined;
  return {
    ...common,
    kind: 'hexagon',
    width: mean * Math.sqrt(3),
    length: 2 * mean,
    along: positiveWay(unit(subtract(points[0]!, at))),
    through,
  };
}

/** Ends of a hollow that no floor closes. */
function openEnds({ mesh, diagonal }: Surface, middle: Vec3, axis: Vec3, depth: number): number {
  // A little aside, so as not to run along an edge of the floor's triangles.
  const at = add(middle, times(across(...axis), 1e-4 * diagonal));
  const floorAt = depth / 2 + 1e-4 * diagonal;
  return [1, -1].filter((sign) => freeAlong(mesh, at, times(axis, sign)) > floorAt).length;
}

/** Two half turns of one size with the same two flat faces beside them. */
function slots(surface: Surface, facet: Int32Array, arcs: readonly Arc[]): Pocket[] {
  const ends = arcs
    .filter(({ hollow, coverage }) => hollow && Math.abs(coverage - 0.5) < 0.06)
    .map((arc) => ({ arc, beside: facesBeside(surface, facet, arc) }));
  const taken = new Set<Arc>();
  const found: Pocket[] = [];
  for (const { arc: one, beside } of ends) {
    if (taken.has(one)) continue;
    const other = ends.find(
      ({ arc, beside: faces }) =>
        arc !== one &&
        !taken.has(arc) &&
        Math.abs(arc.diameter / one.diameter - 1) < UNEVEN &&
        lengthOf(cross(arc.axis, one.axis)) < PARALLEL &&
        [...faces].filter((f) => beside.has(f)).length >= 2,
    );
    if (other === undefined) continue;
    taken.add(one).add(other.arc);
    const way = subtract(other.arc.at, one.at);
    const rise = dot(way, one.axis);
    const flat = subtract(way, times(one.axis, rise));
    const at = add(one.at, times(way, 0.5));
    const mouths = openEnds(surface, at, one.axis, one.length);
    if (mouths === 0) continue;
    const width = (one.diameter + other.arc.diameter) / 2;
    found.push({
      id: '',
      kind: 'slot',
      axis: one.axis,
      at,
      width,
      length: lengthOf(flat) + width,
      along: positiveWay(unit(flat)),
      depth: one.length,
      through: mouths === 2,
    });
  }
  return found;
}

/** Flat faces that a round wall meets along its length. */
function facesBeside({ mesh, mates }: Surface, facet: Int32Array, { wall, axis }: Arc): Set<number> {
  const { positions: p, triangles } = mesh;
  const own = new Set(wall);
  const faces = new Set<number>();
  for (const t of wall) {
    for (let h = 3 * t; h < 3 * t + 3; h++) {
      const beyond = Math.floor(mates[h]! / 3);
      if (mates[h] === -1 || own.has(beyond)) continue;
      const [a, b] = [3 * triangles[h]!, 3 * triangles[h % 3 === 2 ? h - 2 : h + 1]!];
      const edge: Vec3 = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
      if (Math.abs(dot(edge, axis)) > 0.9 * lengthOf(edge)) faces.add(facet[beyond]!);
    }
  }
  return faces;
}
