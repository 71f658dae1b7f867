import type { Surface } from '../features/surfaceOf.ts';
import type { RoundFeatures } from '../features/types.ts';

/** Flat faces smaller than this share of the largest one tell nothing of how the part was drawn. */
const LEAST_FACE = 0.002;
/** Levels along one direction, and sizes in all, that are looked at. */
const MOST_LEVELS = 12;
const MOST_SIZES = 48;

/** Sizes that whoever drew a part may have typed: overall lengths, distances between flat faces across x, y and z, diameters and depths of bores and
 *  posts, distances between their axes. In the unit of the mesh, each once. */
export function sizesOf(surface: Surface, { bores, posts, arcs, pockets }: RoundFeatures): readonly number[] {
  const { positions, triangles } = surface.mesh;
  const found: number[] = [];
  const near = 2e-5 * surface.diagonal;
  const add = (size: number) => {
    if (
      size > 10 * near &&
      found.length < MOST_SIZES &&
      !found.some((known) => Math.abs(known - size) < near)
    )
      found.push(size);
  };
  const [low, high] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  for (const v of triangles) {
    for (let k = 0; k < 3; k++) {
      low[k] = Math.min(low[k]!, positions[3 * v + k]!);
      high[k] = Math.max(high[k]!, positions[3 * v + k]!);
    }
  }
  for (let k = 0; k < 3; k++) add(high[k]! - low[k]!);
  const rounds = [...bores, ...posts];
  for (const { diameter } of rounds) add(diameter);
  for (const { width, length, depth } of pockets) for (const size of [width, length, depth]) add(size);
  for (let k = 0; k < 3; k++) for (const level of levelsAlong(surface, k)) add(level - low[k]!);
  for (const bore of bores) add(bore.depth);
  for (const post of posts) add(post.length);
  // Positions of axes from the side of the part and from one another.
  for (let k = 0; k < 3; k++) {
    const across = rounds.filter(({ axis }) => Math.abs(axis[k]!) < 1e-4).map(({ at }) => at[k]!);
    across.sort((a, b) => a - b);
    for (const [i, at] of across.entries()) {
      add(at - low[k]!);
      if (i > 0) add(at - across[i - 1]!);
    }
  }
  for (const { diameter } of arcs) add(diameter / 2);
  return found;
}

/** Levels of the larger flat faces square to one of the axes, ends left out. */
function levelsAlong({ mesh, normals, areas, diagonal }: Surface, k: number): number[] {
  const { positions: p, triangles } = mesh;
  const step = 2e-5 * diagonal;
  const faces = new Map<number, { level: number; area: number }>();
  for (let t = 0; t < areas.length; t++) {
    if (Math.abs(normals[3 * t + k]!) < 1 - 1e-8) continue;
    const level = p[3 * triangles[3 * t]! + k]!;
    const face = faces.get(Math.round(level / step));
    if (face === undefined) faces.set(Math.round(level / step), { level, area: areas[t]! });
    else face.area += areas[t]!;
  }
  const all = [...faces.values()].sort((a, b) => b.area - a.area);
  const least = LEAST_FACE * (all[0]?.area ?? 0);
  return all
    .filter(({ area }) => area >= least)
    .slice(0, MOST_LEVELS)
    .map(({ level }) => level);
}
