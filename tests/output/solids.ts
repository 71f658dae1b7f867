import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { realise } from '../../src/solid/realise.ts';
import type { Shape } from '../../src/solid/shape.ts';

const kernel = await loadKernel();

/** The triangles of a described solid. */
export const meshOfShape = (shape: Shape): Mesh =>
  withScope(kernel, (scope) => meshOf(realise(scope, shape)));
