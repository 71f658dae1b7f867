import polygonClipping, { type MultiPolygon, type Ring } from 'polygon-clipping';
import type { Vec2, Vec3 } from '../../../src/solid/vector.ts';
import { type Side, sectionOf, type WrittenPart } from './writtenPart.ts';

/** Sides joined to closed rings: two that meet have the same point there to the last bit. */
export function ringsOf(sides: readonly Side[]): Vec2[][] {
  const key = ([x, y]: Vec2) => `${x},${y}`;
  const from = new Map<string, Side[]>();
  for (const side of sides) from.set(key(side.a), [...(from.get(key(side.a)) ?? []), side]);
  const rings: Vec2[][] = [];
  for (const start of sides) {
    const ring: Vec2[] = [];
    for (let side = from.get(key(start.a))?.pop(); side !== undefined; side = from.get(key(side.b))?.pop())
      if (key(side.a) !== key(side.b)) ring.push(side.a);
    if (ring.length >= 3) rings.push(ring);
  }
  return rings;
}

/** What two sections share, as polygons with holes. */
function shared(a: readonly Side[], b: readonly Side[]): MultiPolygon {
  const region = (sides: readonly Side[]): MultiPolygon => {
    const rings = ringsOf(sides).map((ring): [Ring] => [ring as Ring]);
    const [first, ...others] = rings;
    // A point lies in a section when it lies in an odd number of its rings.
    return first ? polygonClipping.xor(first, ...others) : [];
  };
  return polygonClipping.intersection(region(a), region(b));
}

const areaOfRing = (ring: readonly (readonly number[])[]): number =>
  ring.reduce((sum, [x, y], k) => {
    const [u, v] = ring[(k + 1) % ring.length]!;
    return sum + (x! * v! - u! * y!) / 2;
  }, 0);

export interface Overlap {
  readonly volume: number;
  /** Points on its outline, corners among them. */
  readonly outline: readonly Vec3[];
}

/** Levels closer than this are one, mm; no more of them than so many are told apart. */
const SAME = 1e-4;
const MOST = 160;

/** Heights between which neither body has a vertex, so that areas of sections change there without a jump. */
function levels(bodies: readonly WrittenPart[], low: number, high: number): number[] {
  const all = [low, high, ...bodies.flatMap(({ corners }) => [...corners].filter((_, k) => k % 3 === 2))];
  const sorted = all.filter((z) => z >= low && z <= high).sort((a, b) => a - b);
  const found: number[] = [];
  for (const z of sorted) if (found.length === 0 || z - found.at(-1)! > SAME) found.push(z);
  const every = Math.ceil(found.length / MOST);
  return found.filter((_, k) => k % every === 0 || k === found.length - 1);
}

/** Where Gauss's rule of two points looks, as shares of an interval. */
const GAUSS = [0.5 - 0.5 / Math.sqrt(3), 0.5 + 0.5 / Math.sqrt(3)];

/** What two bodies share between two heights, mm: sections of both laid over each other, their areas summed up by Gauss's rule
 *  from vertex to vertex. */
export function overlapOf(part: WrittenPart, other: WrittenPart, low: number, high: number): Overlap {
  let volume = 0;
  const outline: Vec3[] = [];
  const between = levels([part, other], low, high);
  for (const [k, from] of between.slice(0, -1).entries()) {
    const to = between[k + 1]!;
    for (const share of GAUSS) {
      const z = from + share * (to - from);
      for (const polygon of shared(sectionOf(part, z), sectionOf(other, z)))
        for (const [hole, ring] of polygon.entries()) {
          volume += ((hole === 0 ? 1 : -1) * Math.abs(areaOfRing(ring)) * (to - from)) / 2;
          outline.push(...pointsAlong(ring, z));
        }
    }
  }
  return { volume, outline };
}

/** Corners of a ring, and points on its sides no more than 2 mm apart. */
function pointsAlong(ring: Ring, z: number): Vec3[] {
  return ring.flatMap(([x, y], k) => {
    const [u, v] = ring[(k + 1) % ring.length]!;
    const pieces = Math.max(1, Math.ceil(Math.hypot(u - x, v - y) / 2));
    return Array.from(
      { length: pieces },
      (_, i): Vec3 => [x + (i / pieces) * (u - x), y + (i / pieces) * (v - y), z],
    );
  });
}
