import { cross, dot, lengthOf, subtract, times } from '../../solid/vector.ts';
import { DonorRefusal, placeText } from '../donorRefusal.ts';
import type { DonorMesh } from '../types.ts';
import { middleOf, pointOf } from './geometry.ts';
import { beforeOf, nextOf, type Pairing } from './pairing.ts';
import { patchesOf } from './patches.ts';

/** Faces closer in direction than this around an edge lie on one another, radians: ten times what 32-bit coordinates
 *  leave of a right angle. */
const SAME_DIRECTION = 1e-5;

/** Pairs the half-edges of edges at which more than two triangles meet because bodies touch there, or one touches
 *  itself: first those of one patch with each other, else the two faces of each wedge of material. Writes into a copy
 *  of `mate`. Throws `donor_edges_crowded` where faces and material do not take turns around the edge. */
export function pairTouching(mesh: DonorMesh, pairing: Pairing): Int32Array {
  const mate = pairing.mate.slice();
  const { of } = patchesOf(mesh, pairing.mate);
  for (const edge of pairing.crowded) {
    const pairs = withinPatches(mesh, of, edge) ?? acrossMaterial(mesh, edge);
    if (pairs === null) throw crowdedRefusal(mesh, pairing.crowded, edge);
    for (const [a, b] of pairs) {
      mate[a] = b;
      mate[b] = a;
    }
  }
  return mate;
}

/** Refusal of edges whose faces cannot be told apart; `edge` is one of `crowded`. */
export function crowdedRefusal(
  mesh: DonorMesh,
  crowded: Pairing['crowded'],
  edge: readonly number[] = crowded[0]!,
): DonorRefusal {
  const at = middleOf(mesh, edge[0]!);
  const others = crowded.length > 1 ? `; ${crowded.length} edges have more than two` : '';
  return new DonorRefusal(
    'donor_edges_crowded',
    `${edge.length} faces meet at one edge near ${placeText(at)} and cannot be told apart${others}`,
    'two faces at each edge',
    at,
  );
}

type Pairs = readonly (readonly [number, number])[];

/** Whether a half-edge runs from its lower to its higher vertex. */
const upward = ({ triangles }: DonorMesh, h: number): boolean => triangles[h]! < triangles[nextOf(h)]!;

/** Pairs when each patch has exactly two faces there, which run the edge opposite ways. */
function withinPatches(mesh: DonorMesh, of: Int32Array, edge: readonly number[]): Pairs | null {
  const byPatch = new Map<number, number[]>();
  for (const h of edge) {
    const patch = of[Math.floor(h / 3)]!;
    const there = byPatch.get(patch);
    if (there) there.push(h);
    else byPatch.set(patch, [h]);
  }
  const pairs: [number, number][] = [];
  for (const halves of byPatch.values()) {
    const [a, b] = halves;
    if (halves.length !== 2 || upward(mesh, a!) === upward(mesh, b!)) return null;
    pairs.push([a!, b!]);
  }
  return pairs;
}

/** Pairs the two faces of each wedge of material around the edge. */
function acrossMaterial(mesh: DonorMesh, edge: readonly number[]): Pairs | null {
  const { triangles } = mesh;
  const up = edge.filter((h) => upward(mesh, h)).length;
  if (2 * up !== edge.length) return null;
  const low = edge.find((h) => upward(mesh, h))!;
  const foot = pointOf(mesh, triangles[low]!);
  const along = subtract(pointOf(mesh, triangles[nextOf(low)]!), foot);
  const e = times(along, 1 / lengthOf(along));
  const arm = (h: number) => {
    const to = subtract(pointOf(mesh, triangles[beforeOf(h)]!), foot);
    return subtract(to, times(e, dot(to, e)));
  };
  const first = arm(edge[0]!);
  const across = cross(e, first);
  const around = edge.map((h) => {
    const to = arm(h);
    const angle = Math.atan2(dot(to, across) / lengthOf(across), dot(to, first) / lengthOf(first));
    // The face that all are measured from must not end up at both ends of the turn.
    return { h, up: upward(mesh, h), angle: angle < -SAME_DIRECTION ? angle + 2 * Math.PI : angle };
  });
  around.sort((p, q) => p.angle - q.angle || p.h - q.h);
  const ways = [takingTurns(around, false), takingTurns(around, true)].filter((way) => way !== null);
  // Material between two faces that lie on one another would have no thickness, where another way may have some.
  ways.sort((p, q) => thin(p) - thin(q));
  return ways[0]?.map(([opening, closing]) => [opening.h, closing.h] as const) ?? null;
}

interface Face {
  readonly h: number;
  /** Material lies on the side of smaller angles. */
  readonly up: boolean;
  readonly angle: number;
}

/** The two faces of each wedge of material. */
type Wedges = readonly (readonly [Face, Face])[];

/** How many wedges have no thickness. */
const thin = (wedges: Wedges): number =>
  wedges.filter(([opening, closing]) => Math.abs(opening.angle - closing.angle) <= SAME_DIRECTION).length;

/** Goes around once, into material at each face that runs down and out at each that runs up; of faces that lie on one
 *  another the one that is due comes first. Null when it is not in turns. */
function takingTurns(around: readonly Face[], startsInside: boolean): Wedges | null {
  const left = [...around];
  const order: Face[] = [];
  for (let due = startsInside; left.length > 0; due = !due) {
    const end = left[0]!.angle + SAME_DIRECTION;
    const k = left.findIndex((face) => face.angle <= end && face.up === due);
    if (k < 0) return null;
    order.push(...left.splice(k, 1));
  }
  const first = startsInside ? 1 : 0;
  return Array.from({ length: order.length / 2 }, (_, k) => [
    order[(2 * k + first) % order.length]!,
    order[(2 * k + first + 1) % order.length]!,
  ]);
}
