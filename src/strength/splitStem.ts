import { armFlexibility } from './armFlexibility.ts';
import { demand, demandAbove0 } from './demand.ts';
import { filletConcentration } from './filletConcentration.ts';
import type { JointForce } from './jointForce.ts';
import { jointForce } from './jointForce.ts';
import type { SplitStem } from './legSection.ts';
import { legSection } from './legSection.ts';

/** A stem split into legs with a barb, pushed through a round hole. Lengths in mm, angles in radians to the axis. */
export interface BarbedStem extends SplitStem {
  /** Length of the legs from their root to the barb. */
  readonly length: number;
  /** Largest diameter over the barb. */
  readonly barbDiameter: number;
  /** Radius where slots end and legs begin; absent: as printed. */
  readonly fillet?: number;
  readonly modulus: number;
  readonly poisson: number;
  /** Flank going in and flank that holds, 0 to pi/2. */
  readonly insertionAngle: number;
  readonly retentionAngle: number;
  readonly friction: number;
}

export interface StemState {
  /** Diameter of the hole, mm. */
  readonly hole: number;
  /** How far each leg is pressed in, mm; 0 where the barb is no larger than the hole. */
  readonly deflection: number;
  /** Strain of the outer face at the root, in tension, and of the innermost edge. */
  readonly strain: number;
  readonly innerStrain: number;
  /** The larger of the two with the concentration at the root. */
  readonly peakStrain: number;
  /** Force across one leg, N. */
  readonly legForce: number;
  /** All legs together. */
  readonly pushIn: JointForce;
  readonly pullOut: JointForce;
  /** Legs meet before the barb is through: it does not go in without crushing, and forces are too low. */
  readonly legsMeet: boolean;
  /** The stem itself is larger than the hole. */
  readonly stemJams: boolean;
}

/** A barbed stem in holes of several diameters, mm, above 0: the least and most that readings leave, say.
 *
 *  Each leg is a cantilever of constant section (`legSection`): deflection F l^3 / (3 E I), strain 3 c y / l^2, shear and the give of its root
 *  as for a rectangular arm of the same area and second moment (`armFlexibility`; the likeness is this project's, no source). Legs printed
 *  upright break across the layers: hold the strain against that limit. For l at least 1.5 times that thickness. Throws `RangeError` outside the stated ranges.
 *  @example barbedStem(stem, [6.0, 6.2]).map((s) => s.strain) */
export function barbedStem(stem: BarbedStem, holes: readonly number[]): StemState[] {
  const { length, barbDiameter, diameter, legs, modulus, poisson, friction } = stem;
  const { insertionAngle, retentionAngle } = stem;
  const section = legSection(stem);
  demandAbove0('barbed stem', { length, modulus });
  demand(
    'barbed stem',
    'barbDiameter',
    barbDiameter,
    barbDiameter >= diameter,
    `${diameter} mm (the stem) or above`,
  );
  for (const [name, angle] of Object.entries({ insertionAngle, retentionAngle })) {
    demand('barbed stem', name, angle, angle >= 0 && angle <= Math.PI / 2, '0 to pi/2');
  }
  demand('barbed stem', 'friction', friction, friction >= 0 && friction < Infinity, '0 or above');
  const thickness = Math.sqrt((12 * section.inertia) / section.area);
  const fillet = Math.min(stem.fillet ?? 0, thickness);
  const arm = { length, thickness, width: section.area / thickness, fillet };
  const { total, bendingLength } = armFlexibility(arm, modulus, poisson);
  const strainOf = (c: number) => (c * bendingLength) / (modulus * section.inertia);
  const concentration = filletConcentration(fillet, thickness);
  return holes.map((hole) => {
    demandAbove0('barbed stem', { hole });
    const deflection = Math.max(0, (barbDiameter - hole) / 2);
    const legForce = deflection / total;
    const [strain, innerStrain] = [legForce * strainOf(section.outer), legForce * strainOf(section.inner)];
    return {
      hole,
      deflection,
      strain,
      innerStrain,
      peakStrain: concentration * Math.max(strain, innerStrain),
      legForce,
      pushIn: jointForce(legs * legForce, friction, insertionAngle),
      pullOut: jointForce(legs * legForce, friction, retentionAngle),
      legsMeet: deflection > section.room,
      stemJams: diameter > hole,
    };
  });
}
