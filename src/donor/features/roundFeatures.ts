import { add, cross, dot, subtract, times, type Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';
import { across } from './fitCylinder.ts';
import { freeAlong } from './freeAlong.ts';
import { inOrder } from './inOrder.ts';
import { pocketsOf } from './pocketsOf.ts';
import { positiveWay } from './positiveWay.ts';
import { type RoundWall, roundWalls } from './roundWalls.ts';
import { type Surface, surfaceOf } from './surfaceOf.ts';
import type { Arc, Bore, BoreEnd, Post, RoundFeature, RoundFeatures } from './types.ts';

/** A wall with a wider gap is open: what is put in can leave sideways. In turns. */
const WIDEST_GAP = 1 / 6;
/** Less cover in all is a gear or a ring of ribs. In turns. */
const LEAST_COVER = 0.75;
/** With fewer facets than this only equal ones make a circle; a square with its corners taken off has eight too. */
const FEW_FACETS = 12;
/** Arcs shorter than this are left out: a fillet has a quarter of the turn. In turns. */
const LEAST_ARC = 0.2;
/** A drill leaves a cone of 118 degrees, 0.6 radii deep; countersinks to 60 degrees are deeper. In radii. */
const DRILL_POINT = 1.8;

/** Recognises the round bores and posts of a mesh, parts of round walls, and pockets with straight walls. Axis in any direction; sizes
 *  in the unit of the mesh and judged against the part, so any unit will do. Circles need eight facets or more.
 *  Surfaces with no straight edges along the axis (meshes made anew with random triangles) are not recognised.
 *  @example roundFeatures(plateWithHole).bores[0]?.through // => true */
export function roundFeatures(mesh: DonorMesh, onProgress?: (share: number) => void): RoundFeatures {
  const surface = surfaceOf(mesh);
  const walls = roundWalls(surface, onProgress);
  const bores: Bore[] = [];
  const posts: Post[] = [];
  const arcs: Arc[] = [];
  for (const wall of walls) {
    const common = commonOf(wall);
    const length = wall.to - wall.from;
    if (!isWhole(wall)) {
      if (wall.covered >= LEAST_ARC) arcs.push({ ...common, kind: 'arc', hollow: wall.sense < 0, length });
      continue;
    }
    const { cylinder: c } = wall;
    const turned = c.ax * common.axis[0] + c.ay * common.axis[1] + c.az * common.axis[2] < 0;
    const order = <T>(a: T, b: T): [T, T] => (turned ? [b, a] : [a, b]);
    if (wall.sense > 0) {
      const [a, b] = wall.ends.map((end) => (end.narrowing >= 0.5 ? 'free' : 'rooted'));
      posts.push({ ...common, kind: 'post', length, ends: order(a!, b!) });
    } else {
      const [a, b] = [boreEnd(mesh, wall, 0), boreEnd(mesh, wall, 1)];
      bores.push({ ...common, kind: 'bore', depth: length, through: false, ends: order(a, b) });
    }
  }
  const named = <T extends RoundFeature>(features: readonly T[], word: string): T[] =>
    inOrder(features, ({ diameter }) => diameter, surface.diagonal).map((feature, i) => ({
      ...feature,
      id: `${word}${i + 1}`,
    }));
  const ordered = named(withThrough(bores, surface), 'bore');
  const orderedArcs = named(arcs, 'arc');
  return {
    bores: ordered,
    posts: named(posts, 'post'),
    arcs: orderedArcs,
    pockets: pocketsOf(surface, orderedArcs),
  };
}

function isWhole({ covered, gap, facets, widest }: RoundWall): boolean {
  if (gap > WIDEST_GAP || covered < LEAST_COVER) return false;
  return facets >= FEW_FACETS || (gap === 0 && facets >= 8 && widest * facets < 1.1);
}

function commonOf(wall: RoundWall): RoundFeature {
  const { cylinder: c } = wall;
  const middle = (wall.from + wall.to) / 2;
  const axis: Vec3 = [c.ax, c.ay, c.az];
  return {
    id: '',
    axis: positiveWay(axis),
    at: add([c.cx, c.cy, c.cz], times(axis, middle)),
    inscribed: 2 * wall.inner,
    circumscribed: 2 * wall.outer,
    diameter: 2 * c.radius,
    uncertainty: (2 * wall.scatter) / Math.sqrt(Math.max(1, 2 * wall.facets - 5)),
    coverage: wall.covered,
    facets: wall.facets,
    wall: Uint32Array.from(wall.triangles),
  };
}

/** What a bore meets at one end. */
function boreEnd(mesh: DonorMesh, wall: RoundWall, end: 0 | 1): BoreEnd {
  if (wall.ends[end].narrowing < 0.5) return 'open';
  const { cylinder: c } = wall;
  const middle = (wall.from + wall.to) / 2;
  const sign = end === 0 ? -1 : 1;
  // A little off the axis, where drill points and fans of triangles meet.
  const [ux, uy, uz] = across(c.ax, c.ay, c.az);
  const aside = 0.037 * c.radius;
  const from: Vec3 = [
    c.cx + middle * c.ax + aside * ux,
    c.cy + middle * c.ay + aside * uy,
    c.cz + middle * c.az + aside * uz,
  ];
  const free = freeAlong(mesh, from, [sign * c.ax, sign * c.ay, sign * c.az]);
  return free <= (wall.to - wall.from) / 2 + DRILL_POINT * c.radius ? 'floor' : 'step';
}

/** Bores on one axis that run into each other are one hole: it goes through when neither of its ends has a floor. */
function withThrough(bores: readonly Bore[], { diagonal }: Surface): readonly Bore[] {
  const near = 1e-3 * diagonal;
  const next = (bore: Bore, end: 0 | 1): Bore | undefined => {
    const sign = end === 0 ? -1 : 1;
    const tip = (sign * bore.depth) / 2;
    let [best, closest]: [Bore | undefined, number] = [undefined, Infinity];
    for (const other of bores) {
      if (other === bore || Math.abs(dot(other.axis, bore.axis)) < 0.9999) continue;
      const offset = subtract(other.at, bore.at);
      const along = dot(offset, bore.axis);
      const aside = cross(offset, bore.axis);
      if (Math.hypot(...aside) > Math.min(near, 0.05 * bore.diameter)) continue;
      const gap = sign * along - other.depth / 2 - sign * tip;
      // Between the two there may be a cone from one diameter to the other.
      const reach = 0.1 * bore.diameter + 1.8 * Math.abs(bore.diameter - other.diameter);
      if (sign * along > 0 && gap > -near && gap < reach && gap < closest) [best, closest] = [other, gap];
    }
    return best;
  };
  const isOpen = (bore: Bore, end: 0 | 1): boolean => {
    let at: Bore = bore;
    let side = end;
    for (let guard = 0; guard < bores.length; guard++) {
      if (at.ends[side] === 'floor') return false;
      const following = next(at, side);
      if (following === undefined) return true;
      if (dot(following.axis, at.axis) < 0) side = side === 0 ? 1 : 0;
      at = following;
    }
    return true;
  };
  return bores.map((bore) => ({ ...bore, through: isOpen(bore, 0) && isOpen(bore, 1) }));
}
