import type { Mesh } from '../../src/solid/mesh.ts';
import { place } from '../../src/solid/placement.ts';
import type { Placement } from '../../src/solid/vector.ts';

/** The mesh where it is placed; as it is without a placement. */
export function placedMesh(mesh: Mesh, placement: Placement | undefined): Mesh {
  if (!placement) return mesh;
  const positions = new Float32Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!];
    positions.set(place(placement, [x, y, z]), i);
  }
  return { positions, triangles: mesh.triangles };
}
