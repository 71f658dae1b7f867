import type { DonorMesh } from '../types.ts';
import { nextOf } from './pairing.ts';

/** Gives each fan of triangles around a vertex a vertex of its own, where surfaces touch at a vertex or along an edge.
 *  Nothing moves. `mate` pairs every half-edge; it stays valid. */
export function partFans(mesh: DonorMesh, mate: Int32Array): DonorMesh {
  const { positions, triangles } = mesh;
  const seen = new Uint8Array(triangles.length);
  const taken = new Uint8Array(positions.length / 3);
  const copies: number[] = [];
  const parted = triangles.slice();
  for (let corner = 0; corner < triangles.length; corner++) {
    if (seen[corner]) continue;
    const vertex = triangles[corner]!;
    let own = vertex;
    if (taken[vertex]) own = positions.length / 3 + copies.push(vertex) - 1;
    taken[vertex] = 1;
    // Around the vertex: across the edge that starts here, to the edge of the neighbour that starts here.
    for (let c = corner; !seen[c]; c = nextOf(mate[c]!)) {
      seen[c] = 1;
      parted[c] = own;
    }
  }
  if (copies.length === 0) return mesh;
  const all = new Float64Array(positions.length + 3 * copies.length);
  all.set(positions);
  copies.forEach((v, k) => {
    all.set(positions.subarray(3 * v, 3 * v + 3), positions.length + 3 * k);
  });
  return { positions: all, triangles: parted };
}
