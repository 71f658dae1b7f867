import type { Mesh } from './mesh.ts';

/** A triangle is flat when twice its area is below this share of its longest side squared: what rounding in the
 *  calculation of the area leaves, some thousand times finer than a 32-bit coordinate. */
const FLAT = 1e-12;

/** Whether three vertices of a mesh make a triangle without area. */
export function isFlat(p: Float32Array, a: number, b: number, c: number): boolean {
  const [ux, uy, uz] = [p[3 * b]! - p[3 * a]!, p[3 * b + 1]! - p[3 * a + 1]!, p[3 * b + 2]! - p[3 * a + 2]!];
  const [vx, vy, vz] = [p[3 * c]! - p[3 * a]!, p[3 * c + 1]! - p[3 * a + 1]!, p[3 * c + 2]! - p[3 * a + 2]!];
  const [wx, wy, wz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const longest = Math.max(ux * ux + uy * uy + uz * uz, vx * vx + vy * vy + vz * vz);
  return !(wx * wx + wy * wy + wz * wz > FLAT * longest * (FLAT * longest));
}

/** For each vertex the first one with the same coordinates. */
export function firstOfEach(positions: Float32Array): Uint32Array {
  const first = new Map<string, number>();
  return Uint32Array.from({ length: positions.length / 3 }, (_, v) => {
    const key = `${positions[3 * v]},${positions[3 * v + 1]},${positions[3 * v + 2]}`;
    const known = first.get(key);
    if (known === undefined) first.set(key, v);
    return known ?? v;
  });
}

/** The same closed surface without triangles that lost their area when coordinates were rounded to 32 bits, as
 *  happens where two equal bores cross: vertices in one place become one, and a triangle whose middle vertex lies
 *  on its longest side gives that vertex to the neighbour across. No vertex moves, so the surface stays where it is.
 *  A mesh without flat triangles comes back as it is. A triangle that cannot go without tearing the surface stays;
 *  `soundnessOf` reports it. */
export function withoutFlats(mesh: Mesh): Mesh {
  const { positions } = mesh;
  if (!hasFlats(mesh)) return mesh;
  const first = firstOfEach(positions);
  const triangles = triplesOf(mesh.triangles.map((v) => first[v]!)).filter(
    ([a, b, c]) => a !== b && b !== c && c !== a,
  );
  while (flipFlats(positions, triangles)) {
    // A flip may hand a vertex on to a neighbour that is flat itself.
  }
  return compact(positions, triangles);
}

type Triple = [number, number, number];

const triplesOf = (flat: Uint32Array): Triple[] =>
  Array.from({ length: flat.length / 3 }, (_, t) => [flat[3 * t]!, flat[3 * t + 1]!, flat[3 * t + 2]!]);

function hasFlats({ positions, triangles }: Mesh): boolean {
  for (let t = 0; t < triangles.length; t += 3)
    if (isFlat(positions, triangles[t]!, triangles[t + 1]!, triangles[t + 2]!)) return true;
  return false;
}

/** One round over the flat triangles; false when it left as many as it found. */
function flipFlats(positions: Float32Array, triangles: Triple[]): boolean {
  const key = (from: number, to: number): number => from * positions.length + to;
  const owner = new Map<number, number>();
  const own = (t: number): void => {
    const [a, b, c] = triangles[t]!;
    owner.set(key(a, b), t).set(key(b, c), t).set(key(c, a), t);
  };
  triangles.forEach((_, t) => {
    own(t);
  });
  const flat = (t: number): boolean => isFlat(positions, ...triangles[t]!);
  const count = (): number => triangles.reduce((sum, _, t) => sum + Number(flat(t)), 0);
  const before = count();
  triangles.forEach((_, t) => {
    if (!flat(t)) return;
    const [from, to, middle] = longestFirst(positions, triangles[t]!);
    const across = owner.get(key(to, from));
    if (across === undefined) return;
    const far = triangles[across]!.find((v) => v !== from && v !== to)!;
    // An edge that is there already would be shared by four triangles.
    if (far === middle || owner.has(key(middle, far)) || owner.has(key(far, middle))) return;
    owner.delete(key(from, to));
    owner.delete(key(to, from));
    triangles[t] = [middle, from, far];
    triangles[across] = [far, to, middle];
    own(t);
    own(across);
  });
  return count() < before;
}

/** The triangle from the start of its longest side on. */
function longestFirst(p: Float32Array, [a, b, c]: Triple): Triple {
  const square = (v: number, w: number): number =>
    (p[3 * v]! - p[3 * w]!) ** 2 +
    (p[3 * v + 1]! - p[3 * w + 1]!) ** 2 +
    (p[3 * v + 2]! - p[3 * w + 2]!) ** 2;
  const [ab, bc, ca] = [square(a, b), square(b, c), square(c, a)];
  if (ab >= bc && ab >= ca) return [a, b, c];
  return bc >= ca ? [b, c, a] : [c, a, b];
}

/** Only the vertices in use, in their old order. */
function compact(positions: Float32Array, triangles: readonly Triple[]): Mesh {
  const used = [...new Set(triangles.flat())].sort((a, b) => a - b);
  const place = new Map(used.map((v, k) => [v, k]));
  return {
    positions: Float32Array.from(used.flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)])),
    triangles: Uint32Array.from(triangles.flat().map((v) => place.get(v)!)),
  };
}
