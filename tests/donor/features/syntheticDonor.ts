import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { DonorMesh } from '../../../src/donor/types.ts';
import type { Manifold, Scope } from '../../../src/solid/kernel.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';

/** Draws that come out the same for the same seed. */
export interface Draws {
  between(from: number, to: number): number;
  whole(from: number, to: number): number;
  oneOf<T>(things: readonly T[]): T;
  chance(share: number): boolean;
}

export function drawsOf(seed: number): Draws {
  const generator = xoroshiro128plus(seed);
  // The first draws of neighbouring seeds are much alike.
  for (let i = 0; i < 32; i++) uniformFloat64(generator);
  const between = (from: number, to: number) => from + (to - from) * uniformFloat64(generator);
  const whole = (from: number, to: number) => Math.min(to, Math.floor(between(from, to + 1)));
  return {
    between,
    whole,
    oneOf: (things) => things[whole(0, things.length - 1)]!,
    chance: (share) => between(0, 1) < share,
  };
}

/** A solid's mesh with numbers in double precision. */
export function donorOf(solid: Manifold): DonorMesh {
  const { vertProperties, triVerts, numProp } = solid.getMesh();
  const count = vertProperties.length / numProp;
  const positions = new Float64Array(3 * count);
  for (let v = 0; v < count; v++)
    for (let k = 0; k < 3; k++) positions[3 * v + k] = vertProperties[numProp * v + k]!;
  return { positions, triangles: triVerts.slice() };
}

/** Corners of a polygon around a circle of diameter `d` whose corners lie on it, evenly or not, counter-clockwise. */
export function roundPolygon(draws: Draws, d: number, n: number, even: boolean): [number, number][] {
  const steps = Array.from({ length: n }, () => (even ? 1 : draws.between(0.5, 1.5)));
  const whole = steps.reduce((sum, step) => sum + step, 0);
  let angle = draws.between(0, 2 * Math.PI);
  return steps.map((step) => {
    angle += (2 * Math.PI * step) / whole;
    return [(d / 2) * Math.cos(angle), (d / 2) * Math.sin(angle)];
  });
}

/** What was built in, in the pose it was built in: along z. */
export interface Built {
  readonly kind: 'bore' | 'post';
  readonly at: Vec3;
  readonly diameter: number;
  /** Of the polygon: the circle its flats touch. */
  readonly inscribed: number;
  readonly depth: number;
  readonly through: boolean;
}

const inscribedIn = (polygon: readonly (readonly [number, number])[]): number =>
  2 *
  Math.min(
    ...polygon.map(([x, y], i) => {
      const [u, v] = polygon[(i + 1) % polygon.length]!;
      return Math.hypot((x + u) / 2, (y + v) / 2);
    }),
  );

/** A block with bores, plain, blind or stepped, and posts on it, one in each cell of a grid. */
export function blockWithRounds(
  scope: Scope,
  draws: Draws,
): { readonly mesh: DonorMesh; readonly built: readonly Built[] } {
  const { Manifold, CrossSection } = scope.kernel;
  const cell = draws.between(6, 25);
  const [across, deep] = [draws.whole(1, 3), draws.whole(1, 2)];
  const thick = draws.between(3, 20);
  const built: Built[] = [];
  const drills: Manifold[] = [];
  const posts: Manifold[] = [];
  const rod = (d: number, from: number, to: number, x: number, y: number) => {
    const even = draws.chance(0.6);
    const n = even ? draws.whole(8, 96) : draws.whole(20, 96);
    const polygon = roundPolygon(draws, d, n, even);
    const flat = scope.keep(CrossSection.ofPolygons([polygon]));
    const solid = scope.keep(scope.keep(flat.extrude(to - from)).translate(x, y, from));
    return { solid, inscribed: inscribedIn(polygon) };
  };
  for (let i = 0; i < across; i++) {
    for (let j = 0; j < deep; j++) {
      const [x, y] = [(i + 0.5) * cell, (j + 0.5) * cell];
      const diameter = cell * draws.between(0.08, 0.8);
      const kind = draws.oneOf(['through', 'blind', 'stepped', 'post', 'none'] as const);
      if (kind === 'through' || kind === 'stepped') {
        const below = kind === 'stepped' ? thick * draws.between(0.2, 0.7) : thick;
        const { solid, inscribed } = rod(diameter, -1, thick + 1, x, y);
        drills.push(solid);
        built.push({
          kind: 'bore',
          at: [x, y, below / 2],
          diameter,
          inscribed,
          depth: below,
          through: true,
        });
        if (kind === 'stepped') {
          const wide = diameter + (cell * 0.95 - diameter) * draws.between(0.2, 1);
          const step = rod(wide, below, thick + 1, x, y);
          drills.push(step.solid);
          built.push({
            kind: 'bore',
            at: [x, y, (below + thick) / 2],
            diameter: wide,
            inscribed: step.inscribed,
            depth: thick - below,
            through: true,
          });
        }
      } else if (kind === 'blind') {
        const floor = thick * draws.between(0.2, 0.8);
        const { solid, inscribed } = rod(diameter, floor, thick + 1, x, y);
        drills.push(solid);
        built.push({
          kind: 'bore',
          at: [x, y, (floor + thick) / 2],
          diameter,
          inscribed,
          depth: thick - floor,
          through: false,
        });
      } else if (kind === 'post') {
        const high = draws.between(1, 20);
        const { solid, inscribed } = rod(diameter, thick / 2, thick + high, x, y);
        posts.push(solid);
        built.push({
          kind: 'post',
          at: [x, y, thick + high / 2],
          diameter,
          inscribed,
          depth: high,
          through: false,
        });
      }
    }
  }
  const block = scope.keep(Manifold.cube([across * cell, deep * cell, thick]));
  const grown = scope.keep(Manifold.union([block, ...posts]));
  const solid = scope.keep(Manifold.difference([grown, ...drills]));
  return { mesh: donorOf(solid), built };
}

/** A rigid pose: three rows and a shift. */
export interface Pose {
  readonly rows: readonly [Vec3, Vec3, Vec3];
  readonly shift: Vec3;
}

/** A pose with every turn as likely as any other (from a unit quaternion), somewhere near the origin. */
export function drawPose(draws: Draws, near: number): Pose {
  const [a, b, c] = [draws.between(0, 1), draws.between(0, 2 * Math.PI), draws.between(0, 2 * Math.PI)];
  const [p, q] = [Math.sqrt(1 - a), Math.sqrt(a)];
  const [x, y, z, w] = [p * Math.sin(b), p * Math.cos(b), q * Math.sin(c), q * Math.cos(c)];
  return {
    rows: [
      [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
      [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
      [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
    ],
    shift: [draws.between(-near, near), draws.between(-near, near), draws.between(-near, near)],
  };
}

export const turned = ({ rows }: Pose, v: Readonly<Vec3>): Vec3 =>
  rows.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as Vec3;
export const posed = (pose: Pose, v: Readonly<Vec3>): Vec3 =>
  turned(pose, v).map((c, k) => c + pose.shift[k]!) as Vec3;

/** The mesh with every vertex put through `to`. */
export function mapped({ positions, triangles }: DonorMesh, to: (v: Vec3) => Vec3): DonorMesh {
  const moved = positions.slice();
  for (let i = 0; i < moved.length; i += 3) moved.set(to([moved[i]!, moved[i + 1]!, moved[i + 2]!]), i);
  return { positions: moved, triangles };
}

/** The mesh with some of its edges halved: a vertex amid the edge, on both triangles beside it. The surface stays the same. */
export function withEdgesHalved({ positions, triangles }: DonorMesh, draws: Draws, share: number): DonorMesh {
  const points = [...positions];
  const middles = new Map<string, number>();
  const key = (a: number, b: number) => `${Math.min(a, b)},${Math.max(a, b)}`;
  const found: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[i + k]!, triangles[i + ((k + 1) % 3)]!];
      if (middles.has(key(a, b))) continue;
      if (!draws.chance(share)) {
        middles.set(key(a, b), -1);
        continue;
      }
      middles.set(key(a, b), points.length / 3);
      for (let c = 0; c < 3; c++) points.push((positions[3 * a + c]! + positions[3 * b + c]!) / 2);
    }
  }
  for (let i = 0; i < triangles.length; i += 3) {
    const ring: number[] = [];
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[i + k]!, triangles[i + ((k + 1) % 3)]!];
      ring.push(a);
      const middle = middles.get(key(a, b))!;
      if (middle >= 0) ring.push(middle);
    }
    // Cut ears at halved edges first, so that no triangle is flat.
    while (ring.length > 3) {
      const ear = ring.findIndex((v) => v < positions.length / 3 && earAt(ring, v, positions.length / 3));
      const at = ear === -1 ? 0 : ear;
      const [before, after] = [ring[(at + ring.length - 1) % ring.length]!, ring[(at + 1) % ring.length]!];
      found.push(before, ring[at]!, after);
      ring.splice(at, 1);
    }
    found.push(...ring);
  }
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(found) };
}

/** Whether a corner of the triangle may be cut off without taking a straight line for a triangle. */
function earAt(ring: readonly number[], v: number, corners: number): boolean {
  const i = ring.indexOf(v);
  const [before, after] = [ring[(i + ring.length - 1) % ring.length]!, ring[(i + 1) % ring.length]!];
  return before >= corners || after >= corners;
}

/** Every coordinate off by up to `by` either way. */
export const withNoise = (mesh: DonorMesh, draws: Draws, by: number): DonorMesh =>
  mapped(mesh, (v) => v.map((c) => c + draws.between(-by, by)) as Vec3);

/** Coordinates as a 32-bit file keeps them. */
export const as32 = (mesh: DonorMesh): DonorMesh => mapped(mesh, (v) => v.map(Math.fround) as Vec3);
