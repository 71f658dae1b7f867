import type { Mesh } from '../../src/solid/mesh.ts';

const mesh = (positions: readonly number[], triangles: readonly number[]): Mesh => ({
  positions: Float32Array.from(positions),
  triangles: Uint32Array.from(triangles),
});

/** Cube from the origin to (edge, edge, edge), 12 triangles. */
export const cube = (edge: number): Mesh =>
  mesh(
    [0, 1, 2, 3, 4, 5, 6, 7].flatMap((k) => [k & 1, (k >> 1) & 1, k >> 2].map((bit) => bit * edge)),
    [
      [0, 2, 3, 0, 3, 1], // bottom
      [4, 5, 7, 4, 7, 6], // top
      [0, 1, 5, 0, 5, 4],
      [2, 6, 7, 2, 7, 3],
      [0, 4, 6, 0, 6, 2],
      [1, 3, 7, 1, 7, 5],
    ].flat(),
  );

/** Corner of a cube cut off: three legs along the axes. */
export const tetrahedron = (leg: number): Mesh =>
  mesh([0, 0, 0, leg, 0, 0, 0, leg, 0, 0, 0, leg], [0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3]);

/** Upright prism over a regular polygon inscribed in a circle; 4 n - 4 triangles. */
export function prism(sides: number, diameter: number, height: number): Mesh {
  const corners = Array.from({ length: sides }, (_, k) => {
    const angle = (2 * Math.PI * k) / sides;
    return [(Math.cos(angle) * diameter) / 2, (Math.sin(angle) * diameter) / 2];
  });
  const positions = [0, height].flatMap((z) => corners.flatMap(([x, y]) => [x!, y!, z]));
  const walls = corners.flatMap((_, k) => {
    const next = (k + 1) % sides;
    return [k, next, next + sides, k, next + sides, k + sides];
  });
  const caps = Array.from({ length: sides - 2 }, (_, k) => [
    0,
    k + 2,
    k + 1,
    sides,
    sides + k + 1,
    sides + k + 2,
  ]).flat();
  return mesh(positions, [...walls, ...caps]);
}

type Point = readonly [number, number, number];
export interface ReadTriangle {
  readonly normal: Point;
  readonly corners: readonly [Point, Point, Point];
}

/** Volume enclosed by triangles that run counter-clockwise from outside: sum of v1 . (v2 x v3) / 6. */
export const volumeOf = (triangles: readonly ReadTriangle[]): number =>
  triangles.reduce((sum, { corners: [a, b, c] }) => sum + dot(a, cross(b, c)) / 6, 0);

export const areaOf = (triangles: readonly ReadTriangle[]): number =>
  triangles.reduce((sum, { corners }) => sum + Math.hypot(...facing(corners)) / 2, 0);

/** Normal by the right-hand rule, as long as twice the area. */
export const facing = ([a, b, c]: ReadTriangle['corners']): Point => cross(minus(b, a), minus(c, a));

export const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
