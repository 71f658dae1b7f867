import type { DonorMesh } from '../../../src/donor/types.ts';
import type { Vec3 } from '../../../src/solid/vector.ts';

/** A direction turned about x, then y, by an angle and half of it: off every coordinate axis. */
export function turnedAxis([x, y, z]: Readonly<Vec3>, angle: number): Vec3 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [d, t] = [Math.cos(angle / 2), Math.sin(angle / 2)];
  const [v, w] = [c * y - s * z, s * y + c * z];
  return [d * x + t * w, v, d * w - t * x];
}

export function turned(mesh: DonorMesh, angle: number): DonorMesh {
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3)
    positions.set(turnedAxis([mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!], angle), i);
  return { positions, triangles: mesh.triangles };
}
