import type { Vec3 } from '../../solid/vector.ts';
import { across, type Cylinder } from './fitCylinder.ts';

/** Coordinates around an axis: two across it, then along it, from the cylinder's point. */
export interface AxisFrame {
  readonly local: (x: number, y: number, z: number) => Vec3;
  readonly world: (u: number, w: number, s: number) => Vec3;
  /** A direction in local coordinates. */
  readonly turned: (x: number, y: number, z: number) => Vec3;
}

export function axisFrame({ ax, ay, az, cx, cy, cz }: Cylinder): AxisFrame {
  const [ux, uy, uz] = across(ax, ay, az);
  const [wx, wy, wz] = [ay * uz - az * uy, az * ux - ax * uz, ax * uy - ay * ux];
  const turned = (x: number, y: number, z: number): Vec3 => [
    x * ux + y * uy + z * uz,
    x * wx + y * wy + z * wz,
    x * ax + y * ay + z * az,
  ];
  return {
    turned,
    local: (x, y, z) => turned(x - cx, y - cy, z - cz),
    world: (u, w, s) => [
      cx + u * ux + w * wx + s * ax,
      cy + u * uy + w * wy + s * ay,
      cz + u * uz + w * wz + s * az,
    ],
  };
}
