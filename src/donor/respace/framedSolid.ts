import type { Manifold, Mesh, Scope } from '../../solid/kernel.ts';
import { SolidProblem } from '../../solid/realise.ts';
import { type AxisFrame, pointIn } from '../spans/axisFrame.ts';
import type { DonorMesh } from '../types.ts';

/** A donor as a Manifold solid with the axis of the frame pointing up, owned by the scope. 32-bit coordinates.
 *  Throws `SolidProblem` when Manifold takes it for no closed mesh. */
export function framedSolid(scope: Scope, triangles: Uint32Array, frame: AxisFrame): Manifold {
  const { coordinates: c, u, v, h } = frame;
  const upright = new Float32Array(c.length);
  for (let i = 0; i < c.length; i += 3) {
    upright[i] = c[i + u]!;
    upright[i + 1] = c[i + v]!;
    upright[i + 2] = c[i + h]!;
  }
  const mesh: Mesh = new scope.kernel.Mesh({ numProp: 3, vertProperties: upright, triVerts: triangles });
  try {
    return scope.keep(new scope.kernel.Manifold(mesh));
  } catch (error) {
    if (error instanceof Error && error.name === 'ManifoldError' && 'code' in error)
      throw new SolidProblem(String(error.code), 'donor');
    throw error;
  }
}

/** Back from an upright solid to a donor in its own place. */
export function fromFramed(solid: Manifold, frame: AxisFrame): DonorMesh {
  const { vertProperties, numProp, triVerts } = solid.getMesh();
  const count = vertProperties.length / numProp;
  const positions = new Float64Array(3 * count);
  for (let k = 0; k < count; k++) {
    const i = k * numProp;
    positions.set(pointIn(frame, vertProperties[i]!, vertProperties[i + 1]!, vertProperties[i + 2]!), 3 * k);
  }
  return { positions, triangles: triVerts.slice() };
}
