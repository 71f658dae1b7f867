import type { Vec2, Vec3 } from '../../../src/solid/vector.ts';
import { hits, isInside, nearestSide, type Side, sectionOf, type WrittenPart } from './writtenPart.ts';

/** Between which walls is looked: those of plastic, or those of the open. */
export type What = 'wall' | 'gap';

/** A layer's section is taken this much above its middle, mm, so that what is drawn just up to there is not printed. */
export const HAIR = 2e-5;

/** Heights at which the sections of printed layers lie, mm above the bed. */
export function middles(part: WrittenPart, firstLayer: number, layer: number): number[] {
  const found: number[] = [];
  for (let k = 0; ; k++) {
    const z = HAIR + (k === 0 ? firstLayer / 2 : firstLayer + (k - 0.5) * layer);
    if (z >= part.high[2]) return found;
    found.push(z);
  }
}

/** A place between two walls, by a ray from one of them to the other. */
export interface Between {
  /** Length of the ray, which is the diameter of the disc that touches both. */
  readonly width: number;
  readonly at: Vec3;
  readonly across: Vec2;
}

/** Walls are opposite when their normals are this nearly so; sides that lean towards each other are left to the place
 *  where they come nearest. */
const OPPOSITE = Math.cos((6 * Math.PI) / 180);
/** A disc is whole when nothing of the section stands in it by more than this, mm: facets of rounds do by their chord error. */
const IN_IT = 0.004;
/** How far off the wall a ray starts, mm. */
const OFF = 1e-4;

/** Every place of a layer where a disc stands between two walls that face each other, seen from points `spacing` mm apart. */
export function betweenWalls(part: WrittenPart, z: number, what: What, spacing: number): Between[] {
  const sides = sectionOf(part, z);
  const sign = what === 'wall' ? 1 : -1;
  const found: Between[] = [];
  for (const { a, b } of sides) {
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (long < 1e-3) continue;
    const into: Vec2 = [(-sign * (b[1] - a[1])) / long, (sign * (b[0] - a[0])) / long];
    const steps = Math.max(1, Math.ceil(long / spacing));
    for (let k = 0; k < steps; k++) {
      const t = (k + 0.5) / steps;
      const p: Vec2 = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
      const [hit] = hits(part, [p[0] + OFF * into[0], p[1] + OFF * into[1], z], [...into, 0]);
      if (hit === undefined) continue;
      const flat = Math.hypot(hit.normal[0], hit.normal[1]);
      if (sign * (hit.normal[0] * into[0] + hit.normal[1] * into[1]) < OPPOSITE * flat) continue;
      const width = hit.distance + OFF;
      const at: Vec2 = [p[0] + (into[0] * width) / 2, p[1] + (into[1] * width) / 2];
      if (nearestSide(sides, at).distance < width / 2 - IN_IT) continue;
      found.push({ width, at: [...at, z], across: into });
    }
  }
  return found;
}

/** Two walls that lean apart by more than 45 degrees from one layer to the next are a ridge or a groove: the rule of the
 *  finding, by rays. */
export function leansApart(
  part: WrittenPart,
  { at, across, width }: Between,
  what: What,
  next: number,
): boolean {
  const there: Vec3 = [at[0], at[1], next];
  if (isInside(part, there) !== (what === 'wall')) return false;
  const [ahead] = hits(part, there, [...across, 0]);
  const [behind] = hits(part, there, [-across[0], -across[1], 0]);
  const chord = (ahead?.distance ?? Infinity) + (behind?.distance ?? Infinity);
  return chord > width + 2 * Math.abs(next - at[2]) * Math.tan(Math.PI / 8);
}

/** Corners of a section sharper than 75 degrees, whose tips are no walls. */
export function sharpCorners(sides: readonly Side[], what: What): Vec2[] {
  const key = ([x, y]: Vec2) => `${Math.round(x * 1e4)},${Math.round(y * 1e4)}`;
  const from = new Map(
    sides
      .filter(({ a, b }) => Math.hypot(b[0] - a[0], b[1] - a[1]) > 1e-3)
      .map((side) => [key(side.a), side]),
  );
  return sides.flatMap((side) => {
    const next = from.get(key(side.b));
    if (!next) return [];
    const [ux, uy] = [side.b[0] - side.a[0], side.b[1] - side.a[1]];
    const [vx, vy] = [next.b[0] - next.a[0], next.b[1] - next.a[1]];
    const turn = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) * (what === 'wall' ? 1 : -1);
    return turn > (105 * Math.PI) / 180 ? [side.b] : [];
  });
}
