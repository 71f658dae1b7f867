import type { Geom3 } from '@jscad/modeling/src/geometries/geom3/index.js';
import booleansModule from '@jscad/modeling/src/operations/booleans/index.js';
import { geometries } from '../../src/solid/jscad.ts';
import { matrix } from '../../src/solid/placement.ts';
import type { Shape } from '../../src/solid/shape.ts';

/** The same description joined by JSCAD's own 3D booleans: what the house would cost without Manifold. */
export function realiseWithJscad(shape: Shape): Geom3 {
  switch (shape.kind) {
    case 'leaf':
      return shape.geometry;
    case 'mesh':
      throw new RangeError('realiseWithJscad requires a shape drawn by JSCAD (given a mesh)');
    case 'placed':
      return geometries.geom3.transform(matrix(shape.placement), realiseWithJscad(shape.of));
    default: {
      const parts = shape.of.map(realiseWithJscad);
      const operation = { union: 'union', difference: 'subtract', intersection: 'intersect' } as const;
      return booleansModule[operation[shape.kind]](...parts);
    }
  }
}
