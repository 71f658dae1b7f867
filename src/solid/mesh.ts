import type { Manifold } from './kernel.ts';
import type { Vec3 } from './vector.ts';
import { withoutFlats } from './withoutFlats.ts';

/** Triangles with shared vertices, outside wasm memory. Positions are what a 32-bit file can hold. */
export interface Mesh {
  /** x, y, z of each vertex, mm. */
  readonly positions: Float32Array;
  /** Three vertex numbers a triangle, counter-clockwise from outside. */
  readonly triangles: Uint32Array;
}

/** The triangles of a solid, free of wasm memory, none of them without area after rounding to 32 bits. */
export function meshOf(solid: Manifold): Mesh {
  const mesh = solid.getMesh();
  const { numProp } = mesh;
  if (numProp === 3)
    return withoutFlats({ positions: mesh.vertProperties.slice(), triangles: mesh.triVerts.slice() });
  const count = mesh.vertProperties.length / numProp;
  const positions = new Float32Array(3 * count);
  for (let v = 0; v < count; v++)
    positions.set(mesh.vertProperties.subarray(v * numProp, v * numProp + 3), 3 * v);
  return withoutFlats({ positions, triangles: mesh.triVerts.slice() });
}

/** Position of one vertex, mm. */
export const vertexAt = ({ positions }: Mesh, vertex: number): Vec3 => [
  positions[3 * vertex]!,
  positions[3 * vertex + 1]!,
  positions[3 * vertex + 2]!,
];
