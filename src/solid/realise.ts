import type { Geom3 } from '@jscad/modeling/src/geometries/geom3/index.js';
import { geometries } from './jscad.ts';
import type { Manifold, Mesh, Scope } from './kernel.ts';
import { matrix } from './placement.ts';
import type { Shape } from './shape.ts';

/** A description that did not become a solid; `status` is Manifold's word, `Empty`, or `InsideOut` for triangles
 *  that face inward. */
export class SolidProblem extends Error {
  readonly status: string;

  constructor(status: string, where: string) {
    super(`solid requires a closed, oriented mesh (${where}: ${status})`);
    this.name = 'SolidProblem';
    this.status = status;
  }
}

/** Turns a description into a Manifold solid, owned by the scope.
 *  Throws `SolidProblem` when a leaf is not closed or faces inward, or the result is empty or broken. */
export function realise(scope: Scope, shape: Shape): Manifold {
  const solid = build(scope, shape);
  const status = solid.status();
  if (status !== 'NoError') throw new SolidProblem(status, 'result');
  if (solid.isEmpty()) throw new SolidProblem('Empty', 'result');
  return solid;
}

function build(scope: Scope, shape: Shape): Manifold {
  switch (shape.kind) {
    case 'leaf':
      return leaf(scope, shape.geometry);
    case 'mesh':
      return meshSolid(scope, shape.mesh);
    case 'placed':
      return scope.keep(build(scope, shape.of).transform(matrix(shape.placement)));
    default: {
      const parts = shape.of.map((part) => build(scope, part));
      return scope.keep(scope.kernel.Manifold[shape.kind](parts));
    }
  }
}

/** JSCAD keeps a polygon list with no shared vertices; Manifold wants indices. Vertices are joined when they
 *  agree to 1e-6 mm: far below any size that matters, far above what rounding in JSCAD's rotations leaves. */
const WELD = 1e6;

function leaf(scope: Scope, geometry: Geom3): Manifold {
  const index = new Map<string, number>();
  const positions: number[] = [];
  const triangles: number[] = [];
  const vertexOf = (p: ArrayLike<number>): number => {
    const key = `${Math.round(p[0]! * WELD)},${Math.round(p[1]! * WELD)},${Math.round(p[2]! * WELD)}`;
    let vertex = index.get(key);
    if (vertex === undefined) {
      vertex = positions.length / 3;
      positions.push(p[0]!, p[1]!, p[2]!);
      index.set(key, vertex);
    }
    return vertex;
  };
  for (const polygon of geometries.geom3.toPolygons(geometry)) {
    const [first, ...rest] = polygon.vertices.map(vertexOf);
    for (let k = 1; k < rest.length; k++) {
      const [a, b] = [rest[k - 1]!, rest[k]!];
      if (first !== a && a !== b && b !== first) triangles.push(first!, a, b);
    }
  }
  return meshSolid(scope, { positions, triangles });
}

/** A mesh with shared vertices as a solid, owned by the scope. */
function meshSolid(
  scope: Scope,
  { positions, triangles }: { positions: ArrayLike<number>; triangles: ArrayLike<number> },
): Manifold {
  const mesh = new scope.kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(positions),
    triVerts: Uint32Array.from(triangles),
  });
  const solid = scope.keep(solidOf(scope, mesh));
  // A negative volume passes every boolean without complaint and turns a union into a cut.
  if (solid.volume() < 0) throw new SolidProblem('InsideOut', 'leaf');
  return solid;
}

/** The constructor throws where every other call leaves a status; here both become one problem. */
function solidOf(scope: Scope, mesh: Mesh): Manifold {
  try {
    return new scope.kernel.Manifold(mesh);
  } catch (error) {
    if (error instanceof Error && error.name === 'ManifoldError' && 'code' in error)
      throw new SolidProblem(String(error.code), 'leaf');
    throw error;
  }
}
