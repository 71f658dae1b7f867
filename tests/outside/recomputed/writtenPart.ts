// A part as anybody finds it who has nothing but its STL file: read by three.js, asked by the rays of three-mesh-bvh.
import { BufferAttribute, BufferGeometry, DoubleSide, Matrix4, Ray, Vector3 } from 'three';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { MeshBVH } from 'three-mesh-bvh';
import type { Mesh } from '../../../src/solid/mesh.ts';
import type { Placement, Vec2, Vec3 } from '../../../src/solid/vector.ts';

/** Where a ray leaves or enters the surface. */
interface Hit {
  readonly distance: number;
  /** Outward, of unit length. */
  readonly normal: Vec3;
}

export interface WrittenPart {
  readonly geometry: BufferGeometry;
  readonly bvh: MeshBVH;
  /** Nine numbers a triangle. */
  readonly corners: Float32Array;
  readonly low: Vec3;
  readonly high: Vec3;
}

export function writtenPart(file: Uint8Array): WrittenPart {
  return partOf(new STLLoader().parse(Uint8Array.from(file).buffer));
}

/** A solid of the machine, as its triangles. */
export function hostPart({ positions, triangles }: Mesh): WrittenPart {
  const geometry = new BufferGeometry();
  const corners = Float32Array.from([...triangles].flatMap((v) => [...positions.subarray(3 * v, 3 * v + 3)]));
  geometry.setAttribute('position', new BufferAttribute(corners, 3));
  return partOf(geometry);
}

/** A geometry of three.js as a part. */
export function partOf(geometry: BufferGeometry): WrittenPart {
  const corners = geometry.getAttribute('position').array as Float32Array;
  const bvh = new MeshBVH(geometry);
  (geometry as BufferGeometry & { boundsTree?: MeshBVH }).boundsTree = bvh;
  geometry.computeBoundingBox();
  const { min, max } = geometry.boundingBox!;
  return { geometry, bvh, corners, low: [min.x, min.y, min.z], high: [max.x, max.y, max.z] };
}

export const matrix4 = ({ rotation: r, translation: t }: Placement): Matrix4 =>
  new Matrix4().set(r[0], r[1], r[2], t[0], r[3], r[4], r[5], t[1], r[6], r[7], r[8], t[2], 0, 0, 0, 1);

/** All crossings of a ray with the surface, nearest first. `way` of unit length. */
export function hits({ bvh }: WrittenPart, from: Readonly<Vec3>, way: Readonly<Vec3>): Hit[] {
  return bvh
    .raycast(new Ray(new Vector3(...from), new Vector3(...way)), DoubleSide)
    .map(({ distance, face }) => ({
      distance,
      normal: [face!.normal.x, face!.normal.y, face!.normal.z] as Vec3,
    }))
    .sort((a, b) => a.distance - b.distance);
}

/** A direction along nothing that anybody draws, so that no ray runs in a face. */
const ODD: Vec3 = (() => {
  const [x, y, z] = [0.3141, 0.2718, 0.9093];
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
})();

/** Whether a point lies inside: the first face a ray meets looks along it. */
export function isInside(part: WrittenPart, p: Readonly<Vec3>): boolean {
  const [first] = hits(part, p, ODD);
  if (first === undefined) return false;
  return first.normal[0] * ODD[0] + first.normal[1] * ODD[1] + first.normal[2] * ODD[2] > 0;
}

/** Distance to the nearest point of the surface. */
export function distanceTo({ bvh }: WrittenPart, p: Readonly<Vec3>): number {
  return bvh.closestPointToPoint(new Vector3(...p))!.distance;
}

/** Volume and centre of gravity: each triangle's prism down to z = 0, by the divergence theorem with the fields (0, 0, z),
 *  (0, 0, x z), (0, 0, y z) and (0, 0, z^2 / 2). */
export function massOfPart({ corners }: WrittenPart): { readonly volume: number; readonly centre: Vec3 } {
  let [volume, mx, my, mz] = [0, 0, 0, 0];
  for (let t = 0; t < corners.length; t += 9) {
    const [ax, ay, az, bx, by, bz, cx, cy, cz] = corners.subarray(t, t + 9) as unknown as number[];
    const seen = ((bx! - ax!) * (cy! - ay!) - (by! - ay!) * (cx! - ax!)) / 2;
    // Products of linear functions over a triangle: the area over 12 times the sum of products and product of sums.
    const over = (u: readonly number[], v: readonly number[]): number =>
      (u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]! + (u[0]! + u[1]! + u[2]!) * (v[0]! + v[1]! + v[2]!)) /
      12;
    const z = [az!, bz!, cz!];
    volume += (seen * (az! + bz! + cz!)) / 3;
    mx += seen * over([ax!, bx!, cx!], z);
    my += seen * over([ay!, by!, cy!], z);
    mz += (seen * over(z, z)) / 2;
  }
  return { volume, centre: [mx / volume, my / volume, mz / volume] };
}

/** One side of a section, material on its left. */
export interface Side {
  readonly a: Vec2;
  readonly b: Vec2;
}

/** The section at a height, side by side as the triangles give them; nothing is joined or rounded. */
export function sectionOf({ corners }: WrittenPart, z: number): Side[] {
  const sides: Side[] = [];
  for (let t = 0; t < corners.length; t += 9) {
    const p = [0, 3, 6].map((k) => [corners[t + k]!, corners[t + k + 1]!, corners[t + k + 2]!] as Vec3);
    const up = p.map((q) => q[2] > z);
    if (up[0] === up[1] && up[1] === up[2]) continue;
    const ends: Vec2[] = [];
    const rising: boolean[] = [];
    for (let k = 0; k < 3; k++) {
      const [q, r] = [p[k]!, p[(k + 1) % 3]!];
      if (up[k] === up[(k + 1) % 3]) continue;
      // From the lower end up whichever way the edge is passed, so that both its triangles find the same point.
      const [low, high] = q[2] < r[2] ? [q, r] : [r, q];
      const s = (z - low[2]) / (high[2] - low[2]);
      ends.push([low[0] + s * (high[0] - low[0]), low[1] + s * (high[1] - low[1])]);
      rising.push(!up[k]!);
    }
    // Counter-clockwise from outside, the edge that comes down starts the side with material on its left.
    const [first, second] = ends as [Vec2, Vec2];
    sides.push(rising[0] ? { a: second, b: first } : { a: first, b: second });
  }
  return sides;
}

/** Area of a section: half the sum of x dy - y dx along its sides. */
export const areaOf = (sides: readonly Side[]): number =>
  sides.reduce((sum, { a, b }) => sum + (a[0] * b[1] - b[0] * a[1]) / 2, 0);

export interface Nearest {
  readonly distance: number;
  readonly at: Vec2;
  /** At the end of a side, not along it. */
  readonly corner: boolean;
}

/** Nearest point of a section's sides to a point of its plane. */
export function nearestSide(sides: readonly Side[], [x, y]: Readonly<Vec2>): Nearest {
  let best: Nearest = { distance: Infinity, at: [0, 0], corner: false };
  for (const { a, b } of sides) {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const long = dx * dx + dy * dy;
    const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - a[0]) * dx + (y - a[1]) * dy) / long));
    const at: Vec2 = [a[0] + t * dx, a[1] + t * dy];
    const distance = Math.hypot(at[0] - x, at[1] - y);
    if (distance < best.distance) best = { distance, at, corner: t === 0 || t === 1 };
  }
  return best;
}

/** Whether a point of the plane lies in the material of a section, by crossings. */
export function inSection(sides: readonly Side[], [x, y]: Readonly<Vec2>): boolean {
  let inside = false;
  for (const { a, b } of sides)
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  return inside;
}
