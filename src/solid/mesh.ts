import type { Vec3 } from './vector.ts';

/** Triangles with shared vertices, outside wasm memory. Positions are what a 32-bit file can hold. */
export interface Mesh {
  /** x, y, z of each vertex, mm. */
  readonly positions: Float32Array;
  /** Three vertex numbers a triangle, counter-clockwise from outside. */
  readonly triangles: Uint32Array;
}

/** Position of one vertex, mm. */
export const vertexAt = ({ positions }: Mesh, vertex: number): Vec3 => [
  positions[3 * vertex]!,
  positions[3 * vertex + 1]!,
  positions[3 * vertex + 2]!,
];
