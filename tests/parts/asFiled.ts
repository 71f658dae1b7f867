import type { Manifold, ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';

/** The mesh as it goes to the file, as a solid again to be measured. It belongs to the scope. */
export const asFiled = (kernel: ManifoldToplevel, scope: Scope, mesh: Mesh): Manifold =>
  scope.keep(
    new kernel.Manifold(
      new kernel.Mesh({ numProp: 3, vertProperties: mesh.positions, triVerts: mesh.triangles }),
    ),
  );
