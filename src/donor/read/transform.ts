import type { Vec3 } from '../../solid/vector.ts';
import type { DonorMesh } from '../types.ts';

/** A placement as 3MF writes it: twelve numbers, four rows of three, for a row vector (x, y, z, 1) on the left
 *  (core specification 1.3, section 3.3). */
export type Transform = readonly number[];

export const inPlace: Transform = [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0];

/** Twelve numbers from their text; undefined when it is anything else, or squeezes the object flat. */
export function readTransform(text: string): Transform | undefined {
  const numbers = text.trim().split(/\s+/).map(Number);
  const sound = numbers.length === 12 && numbers.every((x) => Math.abs(x) < 1e15);
  return sound && determinant(numbers) !== 0 ? numbers : undefined;
}

/** First `a`, then `b`. */
export function chain(a: Transform, b: Transform): Transform {
  return Array.from({ length: 12 }, (_, k) => {
    const [row, column] = [Math.floor(k / 3), k % 3];
    let sum = row === 3 ? b[9 + column]! : 0;
    for (let j = 0; j < 3; j++) sum += a[3 * row + j]! * b[3 * j + column]!;
    return sum;
  });
}

/** Where a point goes. */
export const moved = (m: Transform, [x, y, z]: Readonly<Vec3>): Vec3 => [
  x * m[0]! + y * m[3]! + z * m[6]! + m[9]!,
  x * m[1]! + y * m[4]! + z * m[7]! + m[10]!,
  x * m[2]! + y * m[5]! + z * m[8]! + m[11]!,
];

/** Writes a mesh in its place into larger arrays, from vertex `vertex` and half-edge `half` on. A mirror image has its
 *  triangles turned, so they face out again. */
export function place(
  { positions, triangles }: DonorMesh,
  m: Transform,
  into: { readonly positions: Float64Array; readonly triangles: Uint32Array },
  vertex: number,
  half: number,
): void {
  for (let v = 0; v < positions.length; v += 3) {
    const [x, y, z] = moved(m, [positions[v]!, positions[v + 1]!, positions[v + 2]!]);
    into.positions[3 * vertex + v] = x;
    into.positions[3 * vertex + v + 1] = y;
    into.positions[3 * vertex + v + 2] = z;
  }
  const mirrored = determinant(m) < 0;
  for (let h = 0; h < triangles.length; h += 3) {
    into.triangles[half + h] = vertex + triangles[h]!;
    into.triangles[half + h + 1] = vertex + triangles[mirrored ? h + 2 : h + 1]!;
    into.triangles[half + h + 2] = vertex + triangles[mirrored ? h + 1 : h + 2]!;
  }
}

function determinant(m: Transform): number {
  return (
    m[0]! * (m[4]! * m[8]! - m[5]! * m[7]!) -
    m[1]! * (m[3]! * m[8]! - m[5]! * m[6]!) +
    m[2]! * (m[3]! * m[7]! - m[4]! * m[6]!)
  );
}
