import type { Mesh } from '../../solid/mesh.ts';
import { place } from '../../solid/placement.ts';
import type { Placement } from '../../solid/vector.ts';
import { withoutFlats } from '../../solid/withoutFlats.ts';

/** Meshes in their places as one, for a format that knows no copies. Coordinates are rounded to 32 bits in their new
 *  place, and what that flattens is taken out. */
export function mergedMesh(parts: readonly { readonly mesh: Mesh; readonly placement: Placement }[]): Mesh {
  const moved = parts.map(({ mesh, placement }) => {
    const positions = new Float32Array(mesh.positions.length);
    for (let v = 0; v < positions.length; v += 3)
      positions.set(
        place(placement, [mesh.positions[v]!, mesh.positions[v + 1]!, mesh.positions[v + 2]!]),
        v,
      );
    return withoutFlats({ positions, triangles: mesh.triangles });
  });
  const count = (of: (mesh: Mesh) => number) => moved.reduce((sum, mesh) => sum + of(mesh), 0);
  const positions = new Float32Array(count((mesh) => mesh.positions.length));
  const triangles = new Uint32Array(count((mesh) => mesh.triangles.length));
  let [vertex, corner] = [0, 0];
  for (const mesh of moved) {
    positions.set(mesh.positions, 3 * vertex);
    triangles.set(
      mesh.triangles.map((k) => k + vertex),
      corner,
    );
    vertex += mesh.positions.length / 3;
    corner += mesh.triangles.length;
  }
  return { positions, triangles };
}
