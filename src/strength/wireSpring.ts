import { power } from '../arithmetic/power.ts';
/** A straight leg of round wire, held at its root. Lengths in mm, above 0; modulus in MPa. */
export interface WireLeg {
  readonly diameter: number;
  readonly length: number;
  readonly modulus: number;
}

/** Force that moves the tip by 1 mm, N/mm: 3 E I / L^3 with I = pi d^4 / 64.
 *
 *  Euler-Bernoulli cantilever (any strength of materials; Roark's Formulas, from memory). For legs longer than ten
 *  diameters and deflections below a tenth of the length; a root that turns makes it softer.
 *  Throws `RangeError` for a size or modulus not above 0.
 *  @example wireStiffness({ diameter: 1.6, length: 20, modulus: 200000 }) // => 24.127... */
export function wireStiffness(leg: WireLeg): number {
  demand(leg);
  return (3 * leg.modulus * Math.PI * power(leg.diameter, 4)) / (64 * power(leg.length, 3));
}

/** Strain at the root for a tip deflection in mm: 3 d y / (2 L^2), 0.01 is 1 %.
 *  @example wireStrain({ diameter: 1.6, length: 20, modulus: 200000 }, 0.5) // => 0.003 */
export function wireStrain(leg: WireLeg, deflection: number): number {
  demand(leg);
  return (3 * leg.diameter * Math.abs(deflection)) / (2 * leg.length ** 2);
}

function demand(leg: WireLeg): void {
  for (const name of ['diameter', 'length', 'modulus'] as const) {
    if (!(leg[name] > 0 && leg[name] < Infinity)) {
      throw new RangeError(`wire leg requires ${name} above 0 (given ${leg[name]})`);
    }
  }
}
