import { type Cylinder, fitCylinder } from './fitCylinder.ts';
import { roundness, WallGrower, WIDEST_FACET } from './growWall.ts';
import { liesOneWay } from './liesOneWay.ts';
import { measureWall, type WallMeasures } from './measureWall.ts';
import type { Surface } from './surfaceOf.ts';

/** A round wall, whole or part of a turn. */
export interface RoundWall extends WallMeasures {
  readonly cylinder: Cylinder;
  /** 1 where the surface bulges (a post), -1 where it is hollow (a bore). */
  readonly sense: 1 | -1;
  /** Triangle numbers. */
  readonly triangles: Int32Array;
}

/** Less of a turn than this is not worth a name. */
const LEAST_COVER = 0.1;
/** What keeps to less than half of that from its first corner, either way, has less; a cosine. */
const NARROW = Math.cos(0.99 * Math.PI * LEAST_COVER);
/** Larger stretches are measured without a look at how far they go round. */
const FEW = 1000;
/** Steeper walls are cones, radians: a quarter of a degree. */
const MOST_TAPER = 0.0044;
/** A profile that bulges more than a circle of five times the radius is no straight wall. */
const MOST_BARREL = 0.2;
/** A wall between smooth neighbours is a wall when it is this many times as long as they are. */
const WALL_TO_NEIGHBOUR = 3;

/** Edges looked at between two words on how far it is. */
const STRIDE = 2 ** 16;

/** Every straight round wall of a surface, in the order of its triangles. `onProgress` hears the share of the mesh that was looked at. */
export function roundWalls(surface: Surface, onProgress?: (share: number) => void): readonly RoundWall[] {
  const { mates, bends, flat, mesh } = surface;
  const grower = new WallGrower(surface);
  const owner = new Int32Array(mesh.triangles.length / 3).fill(-1);
  const mark = new Int32Array(owner.length).fill(-1);
  const tried = new Uint8Array(mates.length);
  let stamp = 0;
  const pieces: RoundWall[] = [];
  for (let h = 0; h < mates.length; h++) {
    if (onProgress && h % STRIDE === 0) onProgress(h / mates.length);
    const mate = mates[h]!;
    if (mate < h || flat[h] || tried[h] || Math.abs(bends[h]!) > WIDEST_FACET) continue;
    if (owner[Math.floor(h / 3)]! >= 0 || owner[Math.floor(mate / 3)]! >= 0) continue;
    const growth = grower.grow(h, owner);
    if (growth === undefined) continue;
    const { cylinder, triangles } = growth;
    if (triangles.length <= FEW && liesOneWay(grower.cornersOf(triangles), cylinder, NARROW)) {
      // Not worth measuring: on a fine mesh that is nearly every one.
      for (const t of triangles) mark[t] = stamp;
      leaveAlone(mates, triangles, mark, stamp++, tried);
      continue;
    }
    const wall = { ...growth, ...measureWall(surface, cylinder, triangles, mark, stamp++) };
    if (wall.covered >= LEAST_COVER && wall.facets >= 3) {
      for (const t of triangles) owner[t] = pieces.length;
      pieces.push(wall);
    } else leaveAlone(mates, triangles, mark, stamp - 1, tried);
  }
  return merged(surface, pieces, grower, mark, stamp).filter(isStraight);
}

/** Whether it is a cylinder and not a slice of a cone, a sphere or a ring. */
function isStraight({ taper, barrel, ends, length }: RoundWall): boolean {
  if (taper > MOST_TAPER || barrel > MOST_BARREL) return false;
  const [a, b] = ends;
  const smooth = a.sharp < 0.5 && b.sharp < 0.5;
  return !smooth || length >= WALL_TO_NEIGHBOUR * Math.max(a.next, b.next);
}

/** Edges inside a stretch that came to nothing would come to much the same nothing again. Where a wall is, other edges of it are left. */
function leaveAlone(
  mates: Int32Array,
  wall: Int32Array,
  mark: Int32Array,
  stamp: number,
  tried: Uint8Array,
): void {
  for (const t of wall) {
    for (let h = 3 * t; h < 3 * t + 3; h++) {
      const mate = mates[h]!;
      if (mate !== -1 && mark[Math.floor(mate / 3)] === stamp) tried[Math.min(h, mate)] = 1;
    }
  }
}

/** Pieces of one cylinder that lie beside each other, parted by grooves or keyways, as one wall. */
function merged(
  surface: Surface,
  pieces: readonly RoundWall[],
  grower: WallGrower,
  mark: Int32Array,
  stampFrom: number,
): readonly RoundWall[] {
  let stamp = stampFrom;
  const done = new Uint8Array(pieces.length);
  const bySize = pieces
    .map((_, i) => i)
    .sort((a, b) => pieces[a]!.cylinder.radius - pieces[b]!.cylinder.radius || a - b);
  const whole: [number, RoundWall][] = [];
  for (let i = 0; i < bySize.length; i++) {
    const first = bySize[i]!;
    if (done[first]) continue;
    let wall = pieces[first]!;
    {
      const off = 2 * roundness(surface, wall.cylinder.radius);
      for (let j = i + 1; j < bySize.length; j++) {
        const next = pieces[bySize[j]!]!;
        if (next.cylinder.radius > wall.cylinder.radius + off) break;
        if (done[bySize[j]!] || !isBeside(wall, next, off)) continue;
        const triangles = Int32Array.from([...wall.triangles, ...next.triangles]);
        const cylinder = fitCylinder(grower.pointsOf(triangles), wall.cylinder);
        if (cylinder === undefined) continue;
        done[bySize[j]!] = 1;
        wall = {
          cylinder,
          sense: wall.sense,
          triangles,
          ...measureWall(surface, cylinder, triangles, mark, stamp++),
        };
      }
    }
    whole.push([first, wall]);
  }
  return whole.sort(([a], [b]) => a - b).map(([, wall]) => wall);
}

/** Whether two walls lie on one cylinder and share a stretch of its axis, or touch. */
function isBeside(one: RoundWall, two: RoundWall, off: number): boolean {
  if (one.sense !== two.sense) return false;
  const [a, b] = [one.cylinder, two.cylinder];
  const same = a.ax * b.ax + a.ay * b.ay + a.az * b.az;
  const reach = Math.max(one.to - one.from, two.to - two.from);
  // Small pieces tell their axis badly, so directions may differ by what a piece's own length allows.
  const tilt = Math.sqrt(Math.max(0, 1 - same * same));
  if (tilt > 0.01 || tilt * reach > 4 * off) return false;
  const [dx, dy, dz] = [b.cx - a.cx, b.cy - a.cy, b.cz - a.cz];
  const along = dx * a.ax + dy * a.ay + dz * a.az;
  const aside = Math.hypot(dx - along * a.ax, dy - along * a.ay, dz - along * a.az);
  if (aside > 2 * off) return false;
  const half = (two.to - two.from) / 2;
  const middle = along + (Math.sign(same) * (two.from + two.to)) / 2;
  return middle + half > one.from - off && middle - half < one.to + off;
}
