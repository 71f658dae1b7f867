import type { Mesh } from '../../solid/mesh.ts';

/** The same surface with smaller triangles where `near` says so of a middle and a radius around it: none of them longer than `longest`
 *  mm, unless that would make more than `most` triangles; then twice, four times as long. Longest edges are halved, and
 *  both triangles at an edge get the same new vertex, so that a closed surface stays closed where both are divided. */
export function refined(
  mesh: Mesh,
  longest: number,
  most: number,
  near: (x: number, y: number, z: number, radius: number) => boolean,
): Mesh {
  for (let length = longest; ; length *= 2) {
    const finer = halved(mesh, length, most, near);
    if (finer) return finer;
  }
}

function halved(
  { positions, triangles }: Mesh,
  longest: number,
  most: number,
  near: (x: number, y: number, z: number, radius: number) => boolean,
): Mesh | null {
  const points = Array.from(positions);
  const done: number[] = [];
  const pile = Array.from(triangles);
  const middles = new Map<string, number>();
  const middleOf = (a: number, b: number): number => {
    const key = a < b ? `${a},${b}` : `${b},${a}`;
    let middle = middles.get(key);
    if (middle === undefined) {
      middle = points.length / 3;
      for (let k = 0; k < 3; k++) points.push((points[3 * a + k]! + points[3 * b + k]!) / 2);
      middles.set(key, middle);
    }
    return middle;
  };
  const length = (a: number, b: number): number =>
    Math.hypot(
      points[3 * a]! - points[3 * b]!,
      points[3 * a + 1]! - points[3 * b + 1]!,
      points[3 * a + 2]! - points[3 * b + 2]!,
    );
  // Dividing what is too fine already would never end; a mesh that has more triangles than wanted stays as it is.
  if (pile.length / 3 >= most) return { positions, triangles };
  while (pile.length > 0) {
    if ((done.length + pile.length) / 3 > most) return null;
    const corners = pile.splice(-3) as [number, number, number];
    const sides = corners.map((a, k) => length(a, corners[(k + 1) % 3]!));
    const side = sides.indexOf(Math.max(...sides));
    const [a, b, c] = [corners[side]!, corners[(side + 1) % 3]!, corners[(side + 2) % 3]!];
    const centre = [0, 1, 2].map((k) => (points[3 * a + k]! + points[3 * b + k]! + points[3 * c + k]!) / 3);
    if (sides[side]! <= longest || !near(centre[0]!, centre[1]!, centre[2]!, sides[side]!)) {
      done.push(...corners);
      continue;
    }
    const middle = middleOf(a, b);
    pile.push(a, middle, c, middle, b, c);
  }
  return { positions: Float32Array.from(points), triangles: Uint32Array.from(done) };
}
