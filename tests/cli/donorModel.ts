import { stl } from '../../src/output/stl.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { block, cylinder } from '../../src/solid/primitives.ts';
import { realise } from '../../src/solid/realise.ts';
import { difference, moved, type Shape, union } from '../../src/solid/shape.ts';

/** A bracket of the sister machine: a base with a bore, a neck 12 mm long whose section stays the same, a head with a post. mm.
 *  Along z: base 0 to 6, neck 6 to 18, head 18 to 24, post 24 to 30. */
export const bracket: Shape = union(
  difference(
    block([-10, -8, 0], [10, 8, 6]),
    cylinder({ axis: 'z', diameter: 3.2, from: [6, 0, -1], length: 9, sense: 'bore' }),
  ),
  block([-4, -3, 6], [4, 3, 18]),
  block([-6, -5, 18], [6, 5, 24]),
  moved(cylinder({ axis: 'z', diameter: 4, from: [0, 0, -0.5], length: 6.5, sense: 'shaft' }), [0, 0, 24]),
);

/** Section of its neck, mm^2. */
export const NECK = 8 * 6;

/** A lens, whose section changes everywhere. */
export const lens: Shape = {
  kind: 'intersection',
  of: [
    cylinder({ axis: 'x', diameter: 20, from: [-10, 0, 0], length: 20, sense: 'shaft' }),
    cylinder({ axis: 'y', diameter: 20, from: [0, -10, 0], length: 20, sense: 'shaft' }),
  ],
};

/** Bytes of an STL file of a shape, `scale` times as large. */
export async function stlOf(shape: Shape, scale = 1): Promise<Uint8Array> {
  const kernel = await loadKernel();
  return withScope(kernel, (scope) => {
    const mesh = meshOf(realise(scope, shape));
    const positions = mesh.positions.map((x) => x * scale);
    return stl({ ...mesh, positions }, { part: 'bracket', unit: 'mm', hash: '0'.repeat(64), ascii: false });
  });
}
