import { type Mesh, vertexAt } from '../solid/mesh.ts';
import { nearestOnTriangle } from '../solid/nearestOnTriangle.ts';
import { add, cross, dot, lengthOf, subtract, times, type Vec3 } from '../solid/vector.ts';

/** How many of the largest triangles are looked at in their middle, and how many of the best of those all over. */
const LOOKED_AT = 160;
const LOOKED_OVER = 12;
/** How close a ball's radius is found, relative. */
const CLOSE = 1e-4;
/** Faces back to back closer than this are a film left by rounding, without depth, mm. */
const FILM = 1e-5;
/** Shrinking a ball converges in a few steps; this many are never needed. */
const STEPS = 16;

/** How deep two solids overlap, mm: diameter of the largest ball found inside their intersection. For the thin shells
 *  of a press fit that is their thickness, whatever their outline; a corner that pokes in is underrated by up to two
 *  fifths. Never more than `most`, the smallest side of the intersection's box.
 *
 *  Balls start on points of the largest triangles, touch the surface there from inside and shrink until they touch
 *  it a second time: with inward normal n at p and the nearest point q, r = |q - p|^2 / (2 n (q - p)). */
export function overlapDepth(mesh: Mesh, most: number): number {
  const triangles = trianglesOf(mesh);
  const large = triangles.slice(0, LOOKED_AT);
  let deepest = 0;
  const look = (p: Vec3, { normal }: Triangle): number => {
    const depth = 2 * ballAt(p, times(normal, -1), triangles, most / 2, deepest / 2);
    deepest = Math.max(deepest, depth);
    return depth;
  };
  const best: { readonly triangle: Triangle; readonly depth: number }[] = [];
  for (const triangle of large) {
    best.push({ triangle, depth: look(middleOf(...triangle.corners), triangle) });
    // No ball is larger than the box it lies in.
    if (deepest >= most * (1 - CLOSE)) return most;
  }
  best.sort((s, t) => t.depth - s.depth);
  for (const { triangle } of best.slice(0, LOOKED_OVER)) {
    const [a, b, c] = triangle.corners;
    const middle = middleOf(a, b, c);
    for (const p of [a, b, c, middleOf(a, b), middleOf(b, c), middleOf(c, a)])
      look(add(times(middle, INSET), times(p, 1 - INSET)), triangle);
  }
  return Math.min(deepest, most);
}

/** Points on the edge of a triangle are taken this share inwards, where its normal holds. */
const INSET = 1e-3;

const middleOf = (...points: readonly Vec3[]): Vec3 =>
  times(
    points.reduce((sum, p) => add(sum, p), [0, 0, 0]),
    1 / points.length,
  );

interface Triangle {
  readonly corners: readonly [Vec3, Vec3, Vec3];
  /** Outward unit normal. */
  readonly normal: Vec3;
  readonly area: number;
}

/** The largest first; those of one area by place, so that it does not matter in which order the solids were made: the library
 *  lists triangles by the age of what they come from. */
function trianglesOf(mesh: Mesh): Triangle[] {
  const triangles: Triangle[] = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => vertexAt(mesh, mesh.triangles[t + k]!)) as [Vec3, Vec3, Vec3];
    const across = cross(subtract(b, a), subtract(c, a));
    const twice = lengthOf(across);
    if (twice > 0) triangles.push({ corners: [a, b, c], normal: times(across, 1 / twice), area: twice / 2 });
  }
  return triangles.sort((s, t) => t.area - s.area || placed(s, t));
}

function placed({ corners: a }: Triangle, { corners: b }: Triangle): number {
  for (let i = 0; i < 3; i++)
    for (let k = 0; k < 3; k++) if (a[i]![k] !== b[i]![k]) return a[i]![k]! - b[i]![k]!;
  return 0;
}

/** Radius of the largest ball that touches the surface at `p` from inside, at most `most`; any number up to `enough` when
 *  it turns out not to be larger than that. */
function ballAt(p: Vec3, inward: Vec3, triangles: readonly Triangle[], most: number, enough: number): number {
  let radius = most;
  for (let step = 0; step < STEPS && radius > enough; step++) {
    const centre = add(p, times(inward, radius));
    let nearest = p;
    let distance = radius * (1 - CLOSE);
    for (const { corners, normal } of triangles) {
      const q = nearestOnTriangle(corners, centre);
      const away = lengthOf(subtract(q, centre));
      if (away < distance) [nearest, distance] = [q, away];
      if (dot(normal, inward) > 0.5 && lengthOf(subtract(q, p)) < FILM) return 0;
    }
    if (nearest === p) break;
    const chord = subtract(nearest, p);
    radius = dot(chord, chord) / (2 * dot(inward, chord));
  }
  return radius;
}
