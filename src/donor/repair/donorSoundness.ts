import type { DonorMesh, DonorSoundness } from '../types.ts';
import { nextOf, OPEN, pairingOf } from './pairing.ts';
import { shellsOf } from './shells.ts';

/** Looks a mesh over by counting on the mesh itself: vertices are the same where their numbers are. Nothing is
 *  repaired. Genus by Euler and Poincaré: vertices - edges + triangles = 2 (surfaces - genus); 0 while it is not
 *  closed. Volume in the cube of the mesh's unit, seen from the middle of the part.
 *  @example donorSoundness(cube) // => { manifold: true, bodies: 1, genus: 0, volume: 1 } */
export function donorSoundness(mesh: DonorMesh): DonorSoundness {
  const { triangles } = mesh;
  const { mate, open, crowded, clashes } = pairingOf(mesh);
  const closed = triangles.length > 0 && open.length === 0 && crowded.length === 0 && clashes === 0;
  const { volumes } = shellsOf(mesh, mate);
  const solid = volumes.filter((volume) => volume > 0).length;
  const volume = volumes.reduce((sum, each) => sum + each, 0);
  const bodies = solid > 0 ? solid : volumes.length;
  if (!closed) return { manifold: false, bodies, genus: 0, volume };
  const used = new Uint8Array(mesh.positions.length / 3);
  for (const v of triangles) used[v] = 1;
  const vertices = used.reduce((sum, each) => sum + each, 0);
  const genus = volumes.length - (vertices - triangles.length / 2 + triangles.length / 3) / 2;
  return { manifold: fansOf(mesh, mate) === vertices, bodies, genus, volume };
}

/** Number of fans of triangles around vertices: one a vertex, unless surfaces touch in a point. */
function fansOf({ triangles }: DonorMesh, mate: Int32Array): number {
  const seen = new Uint8Array(triangles.length);
  let fans = 0;
  for (let corner = 0; corner < triangles.length; corner++) {
    if (seen[corner]) continue;
    fans++;
    for (let c = corner; c > OPEN && !seen[c]; c = nextOf(mate[c]!)) seen[c] = 1;
  }
  return fans;
}
