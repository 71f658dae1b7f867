import { clampingMoments } from './clampingMoments.ts';
import { demandAbove0 } from './demand.ts';
import type { PlateBending, PlateLoad, PlateMaterial } from './plate.ts';
import { bendingOf, demandLoad, padRadius, plateRigidity } from './plate.ts';
import { simplySupported } from './simplySupported.ts';

/** A rectangular plate held on all four edges, which turn freely (`simple`) or not at all (`clamped`). A real flange lies in between. */
export interface RectangularPlate extends PlateMaterial {
  /** mm, between the supports. */
  readonly length: number;
  readonly width: number;
  readonly edge: 'simple' | 'clamped';
}

/** Past this side ratio the far edges no longer tell: they would change the answer by less than exp(-8 pi / 2), 4e-6. */
const LONGEST = 8;

/** Bending of a rectangular plate under pressure or under a pad in its middle, at any side ratio.
 *
 *  Kirchhoff's thin plate: simply supported by Levy's series (`simplySupported`), clamped by moments along the edges that turn them back
 *  (`clampingMoments`). Corners are held down. The stress given is the largest: across the short side in the middle, or at the middle of a
 *  long clamped edge. Agrees with Timoshenko's and Roark's tables to their printed digits: tests/outside/plateBending. Throws `RangeError` outside the ranges.
 *  @example a cover 90 x 60 x 2, E 2000, under 0.001 MPa
 *  rectangularPlate({ length: 90, width: 60, edge: 'simple', thickness: 2, modulus: 2000, poisson: 0.3 },
 *    { kind: 'uniform', pressure: 0.001 }) // => deflection 0.06832, stress 0.4383 */
export function rectangularPlate(plate: RectangularPlate, load: PlateLoad): PlateBending {
  const { length, width, poisson, thickness } = plate;
  demandAbove0('plate', { length, width });
  const b = Math.min(length, width);
  const a = Math.min(Math.max(length, width), LONGEST * b);
  demandLoad(load, b);
  const D = plateRigidity(plate);
  const stressRadius = load.kind === 'pad' ? Math.min(b / 2, padRadius(load.spread, thickness)) : 0;
  const free = simplySupported(a, b, load, stressRadius);
  const moment = (along: number, across: number) =>
    Math.max(across + poisson * along, along + poisson * across);
  if (plate.edge === 'simple') {
    return bendingOf(plate, b, free.deflection / D, moment(free.bendLong, free.bendShort), 0);
  }
  const held = clampingMoments(a, b, load);
  return bendingOf(
    plate,
    b,
    (free.deflection + held.deflection) / D,
    moment(free.bendLong + held.bendLong, free.bendShort + held.bendShort),
    held.edgeMoment,
  );
}
