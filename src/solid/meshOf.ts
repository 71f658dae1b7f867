import type { Manifold } from './kernel.ts';
import type { Mesh } from './mesh.ts';
import { withoutFlats } from './withoutFlats.ts';

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
