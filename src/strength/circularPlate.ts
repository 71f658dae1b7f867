import { demandAbove0 } from './demand.ts';
import type { PlateBending, PlateLoad, PlateMaterial } from './plate.ts';
import { bendingOf, demandLoad, padRadius, plateRigidity } from './plate.ts';

/** A round plate held all round: its edge `simple` turns freely, `clamped` does not. */
export interface CircularPlate extends PlateMaterial {
  /** mm, between the supports. */
  readonly diameter: number;
  readonly edge: 'simple' | 'clamped';
}

/** Bending of a round plate under pressure or a pad in its middle. Closed forms: S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and
 *  Shells, 2nd ed., sections 16, 19 (from memory; uniform load is the pad that covers the plate). Throws `RangeError` outside the ranges.
 *  @example clamped, E 2000, 2 x diameter 60, 0.001 MPa: 0.170625 q a^4 / (E t^3) at nu = 0.3
 *  circularPlate({ diameter: 60, edge: 'clamped', thickness: 2, modulus: 2000, poisson: 0.3 },
 *    { kind: 'uniform', pressure: 0.001 }).deflection // => 0.008638 */
export function circularPlate(plate: CircularPlate, load: PlateLoad): PlateBending {
  const { diameter, edge, poisson: nu, thickness } = plate;
  demandAbove0('plate', { diameter });
  demandLoad(load, diameter);
  const D = plateRigidity(plate);
  const a = diameter / 2;
  const P = load.kind === 'uniform' ? load.pressure * Math.PI * a * a : load.force;
  const c = load.kind === 'uniform' ? a : load.spread / 2;
  const r = load.kind === 'uniform' ? a : Math.min(a, padRadius(load.spread, thickness));
  const local = c * c * Math.log(c / a);
  if (edge === 'clamped') {
    const deflection = (P / (16 * Math.PI * D)) * (a * a + local - 0.75 * c * c);
    const middle = (((1 + nu) * P) / (4 * Math.PI)) * (Math.log(a / r) + (r * r) / (4 * a * a));
    const rim = (-P / (4 * Math.PI)) * (1 - (c * c) / (2 * a * a));
    return bendingOf(plate, diameter, deflection, middle, rim);
  }
  const own = (7 + 3 * nu) / (4 * (1 + nu));
  const deflection = (P / (16 * Math.PI * D)) * (((3 + nu) / (1 + nu)) * a * a + local - own * c * c);
  const middle = (P / (4 * Math.PI)) * ((1 + nu) * Math.log(a / r) + 1 - ((1 - nu) * r * r) / (4 * a * a));
  return bendingOf(plate, diameter, deflection, middle, 0);
}
