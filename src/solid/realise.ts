import type { Geom3 } from '@jscad/modeling/src/geometries/geom3/index.js';
import { geometries } from './jscad.ts';
import type { Manifold, Scope } from './kernel.ts';
import type { Shape } from './shape.ts';
import type { Placement } from './vector.ts';

/** A description that did not become a solid; `status` is Manifold's word, or `Empty`. */
export class SolidProblem extends Error {
  readonly status: string;

  constructor(status: string, where: string) {
    super(`solid requires a closed, oriented mesh (${where}: ${status})`);
    this.name = 'SolidProblem';
    this.status = status;
  }
}

/** Turns a description into a Manifold solid, owned by the scope.
 *  Throws `SolidProblem` when a leaf is not closed or the result is empty or broken. */
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
    case 'placed':
      return scope.keep(build(scope, shape.of).transform(matrix(shape.placement)));
    default: {
      const parts = shape.of.map((part) => build(scope, part));
      return scope.keep(scope.kernel.Manifold[shape.kind](parts));
    }
  }
}

/** Manifold's 4 x 4 column-major matrix of a rigid placement. */
export function matrix({ rotation: r, translation: t }: Placement): Parameters<Manifold['transform']>[0] {
  return [r[0], r[3], r[6], 0, r[1], r[4], r[7], 0, r[2], r[5], r[8], 0, t[0], t[1], t[2], 1];
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
  const mesh = new scope.kernel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(positions),
    triVerts: Uint32Array.from(triangles),
  });
  const solid = scope.keep(new scope.kernel.Manifold(mesh));
  if (solid.status() !== 'NoError') throw new SolidProblem(solid.status(), 'leaf');
  return solid;
}
