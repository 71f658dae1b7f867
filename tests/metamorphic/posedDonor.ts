import type { DonorMesh } from '../../src/donor/types.ts';
import type { Vec3 } from '../../src/solid/vector.ts';
import { plainStl } from '../donor/files.ts';

/** A rigid move, or one in a mirror: p' = M p + t. */
export interface Pose {
  readonly name: string;
  /** Three rows. */
  readonly rows: readonly [Vec3, Vec3, Vec3];
  readonly by: Vec3;
}

export const direction = ({ rows }: Pose, [x, y, z]: Readonly<Vec3>): Vec3 =>
  rows.map(([a, b, c]) => a * x + b * y + c * z) as Vec3;

export const point = (pose: Pose, p: Readonly<Vec3>): Vec3 =>
  direction(pose, p).map((x, k) => x + pose.by[k]!) as Vec3;

const mirrors = ({ rows: [[a, b, c], [d, e, f], [g, h, i]] }: Pose): boolean =>
  a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) < 0;

/** The mesh moved; in a mirror its triangles are turned round, so that they face outwards still. */
export function posed({ positions, triangles }: DonorMesh, pose: Pose): DonorMesh {
  const moved = new Float64Array(positions.length);
  for (let i = 0; i < moved.length; i += 3)
    moved.set(point(pose, [positions[i]!, positions[i + 1]!, positions[i + 2]!]), i);
  const turned = triangles.slice();
  if (mirrors(pose))
    for (let t = 0; t < turned.length; t += 3)
      [turned[t + 1], turned[t + 2]] = [turned[t + 2]!, turned[t + 1]!];
  return { positions: moved, triangles: turned };
}

/** The same as a file, its coordinates rounded to 32 bits. */
export const posedFile = (mesh: DonorMesh, pose: Pose): Uint8Array => plainStl(posed(mesh, pose));

const x: Vec3 = [1, 0, 0];
const y: Vec3 = [0, 1, 0];
const z: Vec3 = [0, 0, 1];
const minus = (v: Vec3): Vec3 => v.map((c) => (c === 0 ? 0 : -c)) as Vec3;

export const shifted: Pose = { name: 'shifted', rows: [x, y, z], by: [37.25, -61.5, 12.125] };
export const mirrored: Pose = { name: 'mirrored in x', rows: [minus(x), y, z], by: [0, 0, 0] };
export const quarterAboutZ: Pose = {
  name: 'turned a quarter about z',
  rows: [minus(y), x, z],
  by: [0, 0, 0],
};
export const quarterAboutX: Pose = {
  name: 'turned a quarter about x',
  rows: [x, minus(z), y],
  by: [0, 0, 0],
};

/** Turned by three angles, off every axis. */
export function turnedAnyhow([a, b, c]: Readonly<Vec3>): Pose {
  const about =
    (angle: number, i: number, j: number) =>
    (p: Vec3): Vec3 => {
      const q: Vec3 = [...p];
      q[i] = Math.cos(angle) * p[i]! - Math.sin(angle) * p[j]!;
      q[j] = Math.sin(angle) * p[i]! + Math.cos(angle) * p[j]!;
      return q;
    };
  const columns = [x, y, z].map((e) => about(c, 0, 1)(about(b, 2, 0)(about(a, 1, 2)(e))));
  const row = (k: number): Vec3 => columns.map((column) => column[k]!) as Vec3;
  return { name: 'turned anyhow', rows: [row(0), row(1), row(2)], by: [5, -3, 8] };
}
