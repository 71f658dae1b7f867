import type { DonorMesh } from '../../../src/donor/types.ts';
import type { Manifold, Scope } from '../../../src/solid/kernel.ts';
import { realise } from '../../../src/solid/realise.ts';
import type { Shape } from '../../../src/solid/shape.ts';

/** A realised solid as a donor, all of Manifold's vertices. */
export function donorOf(solid: Manifold): DonorMesh {
  const { vertProperties, numProp, triVerts } = solid.getMesh();
  const count = vertProperties.length / numProp;
  const positions = new Float64Array(3 * count);
  for (let v = 0; v < count; v++) positions.set(vertProperties.subarray(v * numProp, v * numProp + 3), 3 * v);
  return { positions, triangles: triVerts.slice() };
}

export const donorFrom = (scope: Scope, shape: Shape): DonorMesh => donorOf(realise(scope, shape));

/** Manifold's own reading of a donor; throws when it takes it for no closed mesh. */
export function manifoldOf(scope: Scope, { positions, triangles }: DonorMesh): Manifold {
  const mesh = new scope.kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(positions),
    triVerts: triangles,
  });
  const solid = scope.keep(new scope.kernel.Manifold(mesh));
  if (solid.status() !== 'NoError') throw new Error(solid.status());
  return solid;
}

/** Sum of signed tetrahedra about the first vertex, in double precision: no code of the project. */
export function volumeOf({ positions: p, triangles }: DonorMesh): number {
  const [ox, oy, oz] = [p[0]!, p[1]!, p[2]!];
  let six = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => {
      const i = 3 * triangles[t + k]!;
      return [p[i]! - ox, p[i + 1]! - oy, p[i + 2]! - oz] as const;
    }) as [Vec, Vec, Vec];
    six +=
      a[0] * (b[1] * c[2] - b[2] * c[1]) -
      a[1] * (b[0] * c[2] - b[2] * c[0]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

type Vec = readonly [number, number, number];

/** Each directed edge has exactly one partner the other way: closed, and nothing crowded. */
export function isClosed({ triangles, positions }: DonorMesh): boolean {
  const count = positions.length / 3;
  const edges = new Set<number>();
  for (let t = 0; t < triangles.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const key = triangles[t + k]! * count + triangles[t + ((k + 1) % 3)]!;
      if (edges.has(key)) return false;
      edges.add(key);
    }
  for (const key of edges) if (!edges.has((key % count) * count + Math.floor(key / count))) return false;
  return true;
}

/** Area of all facets together, whichever way they face. */
export function surfaceOf({ positions: p, triangles }: DonorMesh): number {
  let twice = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    twice += Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
  }
  return twice / 2;
}
