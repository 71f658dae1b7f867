import { type Mesh, vertexAt } from './mesh.ts';
import { add, cross, dot, times, type Vec3 } from './vector.ts';

/** Volume and centre of gravity of a closed mesh of even density, mm^3 and mm: the sum over the tetrahedra between
 *  the triangles and the origin (divergence theorem). Without volume the centre is not a number. */
export function massOf(mesh: Mesh): { readonly volume: number; readonly centre: Vec3 } {
  // Counted from a vertex of the part, so that a part far from the origin keeps its digits.
  const origin: Vec3 = mesh.positions.length === 0 ? [0, 0, 0] : vertexAt(mesh, 0);
  const away = (vertex: number): Vec3 => add(vertexAt(mesh, vertex), times(origin, -1));
  let volume = 0;
  let moment: Vec3 = [0, 0, 0];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = [away(mesh.triangles[t]!), away(mesh.triangles[t + 1]!), away(mesh.triangles[t + 2]!)];
    const part = dot(a, cross(b, c)) / 6;
    volume += part;
    moment = add(moment, times(add(add(a, b), c), part / 4));
  }
  return { volume, centre: add(origin, times(moment, 1 / volume)) };
}
